import type { LostParts, OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import { words } from '../app/words.ts';

const { past } = words.screen;
const said = past.changeovers;

const NAMES = ['stood', 'slow', 'stops', 'spoiled'] as const satisfies readonly (keyof LostParts)[];

/** Where the cartons went: parts that add up, each beside what is usual for the pair. */
export function Parts({ opened }: { readonly opened: OpenedChangeover }) {
  const { parts, usual, changeover, earlier } = opened;
  if (!parts)
    return (
      <section className="sheet">
        <h2>{said.parts.none}</h2>
        <p className="second">{said.parts.noneWhy}</p>
      </section>
    );
  const most = Math.max(1, ...NAMES.flatMap((name) => [parts[name], usual?.parts?.[name] ?? 0]));
  return (
    <section className="sheet lostparts">
      <h2>{said.parts.title(parts.all)}</h2>
      {usual && <p className="second">{said.parts.key}</p>}
      <ul>
        {NAMES.map((name) => (
          <Part key={name} name={name} cartons={parts[name]} usual={usual?.parts?.[name]} most={most} />
        ))}
      </ul>
      {usual && <p>{said.parts.range(earlier, usual.shortest, usual.longest)}</p>}
      <p className="foot">{said.parts.how(changeover)}</p>
    </section>
  );
}

function Part({
  name,
  cartons,
  usual,
  most,
}: {
  readonly name: (typeof NAMES)[number];
  readonly cartons: number;
  readonly usual: number | undefined;
  readonly most: number;
}) {
  const share = (n: number) => `${(100 * Math.max(0, n)) / most}%`;
  return (
    <li>
      <span>{said.parts.name(name, cartons)}</span>
      <div className="lostbar">
        <div aria-hidden="true">
          <i className={name === 'stood' ? 'board1' : ''} style={{ width: share(cartons) }} />
          {usual !== undefined && <u style={{ left: share(usual) }} />}
        </div>
        <p>
          <b>{past.count(Math.abs(cartons))}</b>
          <small>{said.parts.usual(usual)}</small>
        </p>
      </div>
    </li>
  );
}
