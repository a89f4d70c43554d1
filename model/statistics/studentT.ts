import { incompleteBeta } from './incompleteBeta.ts';
import { rootBetween } from './root.ts';

/** The share of Student's t with so many degrees of freedom that lies below `t` (DLMF 8.17.18; above 0 degrees). */
export function studentTBelow(t: number, degrees: number): number {
  const { below } = incompleteBeta(
    degrees / 2,
    0.5,
    degrees / (degrees + t * t),
    (t * t) / (degrees + t * t),
  );
  return t > 0 ? 1 - below / 2 : below / 2;
}

/** The value below which such a share lies, for shares between 0 and 1. */
export function studentTQuantile(share: number, degrees: number): number {
  if (share === 0.5) return 0;
  if (share < 0.5) return -studentTQuantile(1 - share, degrees);
  let high = 2;
  while (studentTBelow(high, degrees) < share) high *= 2;
  return rootBetween((t) => studentTBelow(t, degrees) - share, 0, high);
}
