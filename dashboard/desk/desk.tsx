import { PanelLinks, Screens, ThemeSwitch } from '../app/screens.tsx';
import { words } from '../app/words.ts';
import { Head, useHeadline } from '../blank/head.tsx';
import { Matters } from '../matters/answers.tsx';
import { Caution, useActsNear } from '../matters/caution.tsx';
import { Entries } from '../matters/entries.tsx';
import { Going } from '../matters/going.tsx';
import { OrderCrew } from '../matters/order-crew.tsx';
import { Path } from '../path/path.tsx';
import { usePart } from '../store/use.tsx';
import { DESK_STRIP } from '../strip/scale.ts';
import { Strip, useStripLegend, useStripTitle } from '../strip/strip.tsx';
import { StripTable } from '../strip/table.tsx';
import { useColumnBox } from '../strip/width.ts';
import { DevicePath } from '../wall/device-path.tsx';
import { Before, Steps } from '../wall/pressed.tsx';

/** The Line screen at a desk: what the wall shows, in the same order, with room to answer. */
export function Desk() {
  const headline = useHeadline();
  const head = usePart('head');
  const { caution } = words.screen;
  const pressed = head.kind === 'pressed';
  const act = useActsNear();
  return (
    <div className="desk">
      <header className="deskbar">
        <Screens />
        <ThemeSwitch />
      </header>
      <main>
        <h1 className="unseen">{headline}</h1>
        <Head />
        {act && (
          <div className="act">
            <Caution
              {...(pressed ? { title: caution.title } : {})}
              text={pressed ? caution.pressed : caution.jam}
              mark={34}
            />
            <Going />
          </div>
        )}
        <Entries />
        {pressed ? <DevicePath /> : <Path />}
        {pressed && head.kind === 'pressed' && (
          <div className="halves">
            <Before head={head} />
            <Steps press={head.press} />
          </div>
        )}
        <DeskStrip />
        <div className="halves">
          <Matters />
          <OrderCrew />
        </div>
      </main>
      <PanelLinks />
    </div>
  );
}

function DeskStrip() {
  const box = useColumnBox(DESK_STRIP, 64);
  const legend = useStripLegend(box);
  const title = useStripTitle();
  return (
    <section className="deskstrip">
      <h2>
        {title} <span>{legend}</span>
      </h2>
      <Strip box={box} sees />
      <details>
        <summary>{words.screen.page.asTable}</summary>
        <StripTable sees />
      </details>
    </section>
  );
}
