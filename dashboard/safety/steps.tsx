import type { PastUse } from '../../model/past/safetyPast.ts';
import { words } from '../app/words.ts';

const said = words.screen.past.safety.uses;

/** From pressed to the first good carton as one bar in parts; what nobody saw is not drawn, and said. */
export function Steps({ use, scale }: { readonly use: PastUse; readonly scale: number }) {
  return (
    <div className="stepbar" role="img" aria-label={said.said(use)}>
      {use.parts.map(({ kind, from, to }) => (
        <i
          key={`${kind} ${from}`}
          className={`step ${kind}`}
          style={{ left: `${(100 * from) / scale}%`, width: `${(100 * (to - from)) / scale}%` }}
        />
      ))}
      {typeof use.firstGood === 'number' && use.firstGood <= scale && (
        <u style={{ left: `${(100 * use.firstGood) / scale}%` }} />
      )}
      {(use.parts.at(-1)?.to ?? 0) > scale && <b className="cut" />}
      {use.parts.length === 0 && <span>{said.said(use)}</span>}
    </div>
  );
}
