import { Head, useHeadline } from '../blank/head.tsx';
import { WallMatters } from '../matters/matters.tsx';
import { Path } from '../path/path.tsx';
import { Shows } from '../figures/figure.tsx';
import { usePart } from '../store/use.tsx';
import { WALL_STRIP } from '../strip/scale.ts';
import { Strip, useStripLegend, useStripTitle } from '../strip/strip.tsx';
import { StripTable } from '../strip/table.tsx';
import { WallPressed } from './pressed.tsx';

/** The wall shows and never asks: 1920 × 1080, scaled as a whole, nothing to press and nothing that scrolls. */
export function Wall() {
  const headline = useHeadline();
  const pressed = usePart('head').kind === 'pressed';
  return (
    <Shows value={true}>
      <main className="wall">
        <h1 className="unseen">{headline}</h1>
        <div className="wallhead">
          <Head />
        </div>
        {pressed ? <WallPressed /> : <WallRunning />}
      </main>
    </Shows>
  );
}

function WallRunning() {
  const title = useStripTitle();
  const legend = useStripLegend(WALL_STRIP);
  return (
    <>
      <div className="wallpath">
        <Path caution />
      </div>
      <section className="walllow">
        <h2>
          <b>{title}</b>
          <span>{legend}</span>
        </h2>
        <Strip box={WALL_STRIP} />
        <div className="unseen">
          <StripTable />
        </div>
      </section>
      <div className="wallnotes">
        <WallMatters height={306} />
      </div>
    </>
  );
}
