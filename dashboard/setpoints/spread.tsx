import type { Spread } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';

const said = words.screen.past.setPoints;
const NICE = [1, 2, 4, 8, 12, 20, 40, 80, 120, 200, 400, 1000] as const;

/** Up to where the bars of all rows are drawn, so that they can be compared. */
export function spreadTop(spreads: readonly (Spread | undefined)[]): number {
  const most = Math.max(0, ...spreads.map((one) => one?.high ?? one?.mean ?? 0));
  return NICE.find((one) => one >= most) ?? 1000;
}

/** Rejects between runs: a ring at the mean, a bar from the least to the most that they allow, dashed all along for a single run. */
export function SpreadBar({ spread, most }: { readonly spread: Spread | undefined; readonly most: number }) {
  if (!spread) return null;
  const { mean, low, high } = spread;
  const x = (at: number) => `${2 + (96 * Math.min(at, most)) / most}%`;
  return (
    <svg width="100%" height={22} role="img" aria-label={said.rejectsSaid(spread)}>
      <line className="ruler thin" x1={x(0)} x2={x(most)} y1={17} y2={17} />
      {[0, 0.25, 0.5, 0.75, 1].map((part) => (
        <line key={part} className="ruler thin" x1={x(part * most)} x2={x(part * most)} y1={15} y2={19} />
      ))}
      {low === undefined || high === undefined ? (
        <line className="nospread1" x1={x(0)} x2={x(most)} y1={8} y2={8} />
      ) : (
        <>
          <line className="spread1" x1={x(low)} x2={x(high)} y1={8} y2={8} />
          <line className="spread1" x1={x(low)} x2={x(low)} y1={4} y2={12} />
          <line className="spread1" x1={x(high)} x2={x(high)} y1={4} y2={12} />
        </>
      )}
      <circle className="mean1" cx={x(mean)} cy={8} r={4} />
    </svg>
  );
}
