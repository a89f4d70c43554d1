import type { Learned } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';

const said = words.screen.past.setPoints;
/** Px: as wide as the marks may be together, and what a mark and a gap take where there are few. */
const WIDE = 112;
const MARK = { step: 8, wide: 6, gap: 6, height: 10 } as const;

/** A mark is a run, a gap another setting; open marks where it never varied. */
export function SureMarks({ learned }: { readonly learned: Learned }) {
  const { marks, sure } = learned;
  const runs = marks.reduce((sum, one) => sum + one.runs, 0);
  if (runs === 0) return null;
  const full = runs * MARK.step + (marks.length - 1) * MARK.gap;
  const shrunk = Math.min(1, WIDE / full);
  const places = marks.flatMap(({ runs: many, at }, setting) => {
    const before = marks.slice(0, setting).reduce((sum, one) => sum + one.runs, 0);
    return Array.from({ length: many }, (_, n) => ({
      key: `${at} ${n}`,
      x: shrunk * ((before + n) * MARK.step + setting * MARK.gap),
    }));
  });
  return (
    <svg
      width={full * shrunk}
      height={MARK.height + 2}
      role="img"
      aria-label={said.sureWhy(learned)}
      className={sure === 'neverVaried' ? 'suremarks open' : 'suremarks'}
    >
      {places.map(({ key, x }) => (
        <rect key={key} x={x + 0.5} y={1} width={Math.max(1, shrunk * MARK.wide)} height={MARK.height} />
      ))}
    </svg>
  );
}
