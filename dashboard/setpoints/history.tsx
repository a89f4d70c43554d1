import type { SetPointOpened } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';
import { usePositionName } from './positions.ts';

const { approvals: said } = words.screen.past.setPoints.one;

/** Every number that was approved or taken back, who did it, why, and what was seen then. */
export function Approvals({ opened }: { readonly opened: SetPointOpened }) {
  const { zone } = usePart('line');
  const nameOf = usePositionName();
  const { approvals, row } = opened;
  return (
    <section className="sheet approvals1">
      <h2>{said.title}</h2>
      {approvals.length === 0 ? (
        <p>{said.none}</p>
      ) : (
        <ul>
          {approvals.map((one) => (
            <li key={`${one.at} ${one.value}`}>
              {said.one(one, row, zone, nameOf)}
              {one.seen !== undefined && <small>{said.seen(one.seen)}</small>}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
