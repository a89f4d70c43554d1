import { useState } from 'react';
import { TAKEN_WHYS, type TakenWhy } from '../../model/entries/entries.ts';
import { takenDoubtful } from '../../model/entries/takenDoubt.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useEnter } from '../store/use.tsx';
import { Ask, BackKey, Key } from './key.tsx';
import { KeypadPage } from './keypad.tsx';
import { FlowHead } from './panel-head.tsx';

/** Cartons that nobody takes out at once by more digits than this. */
const DIGITS_MOST = 4;

/** A carton beside each: looked at, opened, closed. */
const DRAWINGS = { sample: 'discharge', byHand: 'top-major', broughtBack: 'tuck-cam' } as const;

const { taken } = words.screen.balance;

/** Samples, cartons taken out by hand, and ones that were closed by hand and brought back: first what, then how many. */
export function TakenFlow({ here, close }: { readonly here: PositionView; readonly close: () => void }) {
  const [why, choose] = useState<TakenWhy>();
  return why === undefined ? (
    <WhyPage here={here} choose={choose} close={close} />
  ) : (
    <CountPage here={here} why={why} back={() => choose(undefined)} done={close} />
  );
}

function WhyPage({
  here,
  choose,
  close,
}: {
  readonly here: PositionView;
  readonly choose: (why: TakenWhy) => void;
  readonly close: () => void;
}) {
  return (
    <>
      <FlowHead here={here} title={taken.title} right={words.screen.panel.tap(1)} />
      <Ask top={178}>{taken.asksWhy}</Ask>
      {TAKEN_WHYS.map((why, i) => (
        <Key
          key={why}
          says={taken.whys[why]}
          left={24}
          top={246 + i * 138}
          width={1232}
          height={130}
          look="asks"
          kind={why}
          drawing={DRAWINGS[why]}
          onTap={() => choose(why)}
        />
      ))}
      <BackKey left={652} onTap={close} />
    </>
  );
}

/** How many, by keys; a doubtful count is asked about. */
export function CountPage({
  here,
  why,
  back,
  done,
}: {
  readonly here: PositionView;
  readonly why: TakenWhy;
  readonly back: () => void;
  readonly done: () => void;
}) {
  const [digits, type] = useState('');
  const [doubted, doubt] = useState(false);
  const enter = useEnter();
  const typed = Number(digits);
  const keep = () => {
    enter({ kind: 'takenOut', cartons: typed, why });
    done();
  };
  if (doubted) return <DoubtPage here={here} why={why} typed={typed} keep={keep} back={() => doubt(false)} />;
  return (
    <KeypadPage
      here={here}
      title={taken.titles[why]}
      asks={taken.howMany[why]}
      digits={digits}
      most={DIGITS_MOST}
      type={type}
      typed={digits === '' ? taken.noCount : words.count(typed)}
      take={{
        says: taken.enter,
        ready: typed > 0,
        onTap: () => (takenDoubtful(typed) ? doubt(true) : keep()),
      }}
      to={taken.toWhys}
      back={back}
    >
      {typed > 0 ? taken.hint(why, typed) : taken.told}
    </KeypadPage>
  );
}

/** A count that looks like a slip is asked about in words, and is never changed silently. */
export function DoubtPage({
  here,
  why,
  typed,
  keep,
  back,
}: {
  readonly here: PositionView;
  readonly why: TakenWhy;
  readonly typed: number;
  readonly keep: () => void;
  readonly back: () => void;
}) {
  return (
    <>
      <FlowHead here={here} title={taken.titles[why]} right="" />
      <Ask top={178}>{taken.doubt(typed)}</Ask>
      <p className="told" style={{ top: 256 }}>
        {taken.doubtWhy}
      </p>
      <Key
        says={taken.again}
        left={24}
        top={320}
        width={604}
        height={152}
        look="asks"
        kind="again"
        onTap={back}
      />
      <Key
        says={taken.asTyped(typed)}
        left={652}
        top={320}
        width={604}
        height={152}
        look="quiet"
        kind="typedkey"
        onTap={keep}
      />
    </>
  );
}
