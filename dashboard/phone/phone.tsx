import { Screens, ThemeSwitch } from '../app/screens.tsx';
import { words } from '../app/words.ts';
import { Matters } from '../matters/answers.tsx';
import { Caution, useActsNear } from '../matters/caution.tsx';
import { Entries } from '../matters/entries.tsx';
import { OrderCrew } from '../matters/order-crew.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { ToSheet } from '../sheet/toSheet.tsx';
import { Before, Steps } from '../wall/pressed.tsx';
import { PhoneBlank } from './phone-blank.tsx';
import { PhonePath, PhoneRows } from './phone-path.tsx';
import { PhoneDevices } from './phone-devices.tsx';
import { PhoneStrip } from './phone-strip.tsx';

/** The same answers in the same order on one column; nothing needs a phone. */
export function Phone() {
  const line = usePart('line');
  const head = usePart('head');
  const moment = useMoment();
  const { caution } = words.screen;
  const pressed = head.kind === 'pressed';
  const acts = useActsNear();
  return (
    <div className={moment.sight === 'live' ? 'phone' : 'phone stalepage'}>
      <header className="top">
        <span>
          <b>{line.name}</b>, {line.product}
        </span>
        <span>{line.size ?? words.screen.line.sizeNotKnown}</span>
        <time>{words.screen.line.clock(moment.clock, line.zone)}</time>
      </header>
      <main>
        <PhoneBlank />
        <Entries />
        {acts && (
          <div className="inset">
            <Caution
              {...(pressed ? { title: caution.title } : {})}
              text={pressed ? caution.pressed : caution.jam}
              mark={40}
            />
          </div>
        )}
        {head.kind === 'pressed' && (
          <>
            <div className="inset sheetlike">
              <Before head={head} />
            </div>
            <div className="inset sheetlike">
              <Steps press={head.press} />
            </div>
            <PhoneDevices />
          </>
        )}
        <ToSheet when="open" />
        <PhonePath />
        <PhoneStrip />
        <div className="inset">
          <Matters />
        </div>
        <PhoneRows />
        <ToSheet when="none" />
        <div className="inset">
          <OrderCrew />
        </div>
        <div className="inset themerow">
          <Screens />
          <ThemeSwitch />
        </div>
      </main>
    </div>
  );
}
