import type { Happening, HeadPressed, PressView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useTold } from '../blank/told.ts';
import { Figure } from '../figures/figure.tsx';
import { Caution } from '../matters/caution.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { DevicePath } from './device-path.tsx';

/** With a stop device latched in: the same places for every answer, devices and guards as read, what came before. */
export function WallPressed() {
  const head = usePart('head');
  if (head.kind !== 'pressed') return null;
  return (
    <>
      <div className="wallpath">
        <DevicePath />
      </div>
      <div className="wallbefore">
        <Before head={head} />
      </div>
      <div className="wallsteps">
        <Steps press={head.press} />
      </div>
      <div className="wallcaution">
        <Caution title={words.screen.caution.title} text={words.screen.caution.pressed} mark={52} />
      </div>
    </>
  );
}

const DOT: { readonly [kind in Happening['kind']]: string } = {
  firstFault: 'first',
  setOff: 'filled',
  press: 'latched',
  reject: '',
  release: '',
  guardOpened: 'filled',
  guardClosed: '',
};

/** What came before, in PLC time, counted from the first fault or, without one, from the press. */
export function Before({ head, most = 5 }: { readonly head: HeadPressed; readonly most?: number }) {
  const told = useTold(useMoment());
  const { pressed } = words.screen;
  const shown = head.before.slice(-most);
  const firstOff = shown.find((one) => one.offset !== 0);
  return (
    <section className="before">
      <h2>{pressed.before}</h2>
      <ol>
        {shown.length === 0 && (
          <li>
            <span className="when" />
            <i />
            <span>{pressed.nothingBefore}</span>
          </li>
        )}
        {shown.map((one) => (
          <li key={`${one.kind}${one.at}${one.name}`}>
            <span className="when">
              {one.offset === 0 ? (
                pressed.exact(one.at, told.zone)
              ) : (
                <Figure of="firstFaultAfter" quiet={one !== firstOff}>
                  {pressed.offset(one.offset)}
                </Figure>
              )}
            </span>
            <i className={DOT[one.kind]} />
            <span>
              <Rich text={pressed.happening(one, told.station(one.station))} />
            </span>
          </li>
        ))}
        <li className="nowrow">
          <span className="when">{pressed.now}</span>
          <i className="nothing" />
          <span>{pressed.whoDidNot}</span>
        </li>
      </ol>
    </section>
  );
}

/** pressed → released → reset → restarted → first good carton, each with its moment or "not yet". */
export function Steps({ press }: { readonly press: PressView }) {
  const { zone, emergencyNumber } = usePart('line');
  const { pressed, caution } = words.screen;
  return (
    <section className="steps">
      <h2>{pressed.stepsTitle}</h2>
      <ol>
        {stepsOf(press).map(({ step, said, done }) => (
          <li key={step} className={done ? 'done' : ''}>
            <b>{pressed.steps[step]}</b>
            <span>{said(zone)}</span>
          </li>
        ))}
      </ol>
      <p>{caution.hurt(emergencyNumber)}</p>
    </section>
  );
}

export type Step = keyof typeof words.screen.pressed.steps;

/** The five steps of a press and what is known of each. */
export function stepsOf(
  press: PressView,
): readonly { readonly step: Step; readonly done: boolean; readonly said: (zone: string) => string }[] {
  const { pressed, line } = words.screen;
  return (['pressed', 'released', 'reset', 'restarted', 'firstGood'] as const).map((step) => {
    const at = press[step];
    if (step === 'pressed' && press.known !== 'edge')
      return { step, done: true, said: () => pressed.notSeen };
    return {
      step,
      done: at !== undefined,
      said: (zone) => (at === undefined ? pressed.notYet : line.clockSeconds(at, zone)),
    };
  });
}
