import type { Pocket } from '../../model/view/view.ts';
import { Pockets } from '../blank/pockets.tsx';

/** The minute's pockets in two rows as wide as the panel. */
export function PhonePockets({ pockets }: { readonly pockets: readonly Pocket[] }) {
  const columns = Math.max(1, Math.ceil(pockets.length / 2));
  return (
    <svg viewBox="0 0 126 28" className="phonepockets" aria-hidden="true">
      <Pockets pockets={pockets} box={{ x: 0, y: 1, width: 121, height: 27, columns }} upright />
    </svg>
  );
}
