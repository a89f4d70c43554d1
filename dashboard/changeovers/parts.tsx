import type { LostParts, OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Rich } from '../type/line.tsx';
import { howNumbers } from './numbers.ts';

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
      <h2>
        <span>
          <Rich text={said.parts.title(parts.all)} of={[['changeoverLost', past.count(parts.all)]]} />
        </span>
      </h2>
      {usual && <p className="second">{said.parts.key}</p>}
      <ul>
        {NAMES.map((name) => (
          <Part key={name} name={name} cartons={parts[name]} usual={usual?.parts?.[name]} most={most} />
        ))}
      </ul>
      {usual && (
        <p>
          <Rich
            text={said.parts.range(earlier, usual.shortest, usual.longest)}
            of={[
              ['earlierChangeovers', past.count(earlier)],
              ['usualChangeover', past.past(usual.shortest)],
              ['usualChangeover', past.past(usual.longest)],
            ]}
          />
        </p>
      )}
      <p className="foot">
        <Rich text={said.parts.how(changeover)} of={howNumbers(changeover)} />
      </p>
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
          <b>
            <Figure of="changeoverParts">{past.count(Math.abs(cartons))}</Figure>
          </b>
          <small>
            <Rich
              text={said.parts.usual(usual)}
              of={usual === undefined ? [] : [['usualLost', past.count(usual)]]}
            />
          </small>
        </p>
      </div>
    </li>
  );
}
