import { useState } from 'react';
import { handedDoubtful } from '../../model/entries/handedDoubt.ts';
import type { OrderView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useEnter } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { Ask, BackKey, Key } from './key.tsx';
import { KeypadPage } from './keypad.tsx';
import { FlowHead } from './panel-head.tsx';

/** Cartons of an order that nobody counts by more digits than this. */
const DIGITS_MOST = 7;

/** Cartons handed over at an order's end, by keys, beside what was counted as good; a doubtful count is asked about. */
export function HandedPage({
  here,
  order,
  back,
  done,
}: {
  readonly here: PositionView;
  readonly order: OrderView;
  readonly back: () => void;
  readonly done: () => void;
}) {
  const [digits, type] = useState('');
  const [doubted, doubt] = useState(false);
  const enter = useEnter();
  const { panel, line } = words.screen;
  const typed = Number(digits);
  const keep = (cartons: number) => {
    enter({ kind: 'handedOver', order: order.number, cartons });
    done();
  };
  if (doubted)
    return <DoubtPage here={here} order={order} typed={typed} keep={keep} back={() => doubt(false)} />;
  return (
    <KeypadPage
      here={here}
      title={panel.handedOf(order)}
      asks={panel.howManyHanded}
      digits={digits}
      most={DIGITS_MOST}
      type={type}
      typed={digits === '' ? panel.noCount : line.count(typed)}
      take={{
        says: panel.enterCount,
        ready: digits !== '',
        onTap: () => (handedDoubtful(typed, order.good) ? doubt(true) : keep(typed)),
      }}
      back={back}
    >
      <Rich text={panel.counted(order.good)} of={[['orderGood', line.count(order.good)]]} />
      <br />
      {digits !== '' && (
        <b>
          <Apart cartons={typed - order.good} />
        </b>
      )}
    </KeypadPage>
  );
}

/** Handed over against counted. */
function Apart({ cartons }: { readonly cartons: number }) {
  const { panel, line } = words.screen;
  return <Rich text={panel.apart(cartons)} of={[['handedOverDifference', line.count(Math.abs(cartons))]]} />;
}

/** A count that looks like a slip is asked about in words, the likely number first, and is never changed silently. */
export function DoubtPage({
  here,
  order,
  typed,
  keep,
  back,
}: {
  readonly here: PositionView;
  readonly order: OrderView;
  readonly typed: number;
  readonly keep: (cartons: number) => void;
  readonly back: () => void;
}) {
  const { panel } = words.screen;
  return (
    <>
      <FlowHead here={here} title={panel.handedOf(order)} right="" />
      <Ask top={178}>{panel.doubtCount(typed)}</Ask>
      <p className="told" style={{ top: 256 }}>
        <Rich text={panel.counted(order.good)} of={[['orderGood', words.screen.line.count(order.good)]]} />:{' '}
        <b>
          <Apart cartons={typed - order.good} />
        </b>
      </p>
      <Key
        says={panel.asCounted(order.good)}
        left={24}
        top={320}
        width={604}
        height={152}
        look="asks"
        kind="counted"
        onTap={() => keep(order.good)}
      />
      <Key
        says={panel.asTyped(typed)}
        left={652}
        top={320}
        width={604}
        height={152}
        look="quiet"
        kind="typedkey"
        onTap={() => keep(typed)}
      />
      <BackKey to={panel.toKeys} onTap={back} />
    </>
  );
}
