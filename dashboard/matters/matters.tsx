import type { Matter } from '../../model/view/matter.ts';
import { words } from '../app/words.ts';
import { useTold } from '../blank/told.ts';
import { Mark } from '../marks/symbols.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { Caution } from './caution.tsx';
import { Rich } from '../type/line.tsx';
import { measure } from '../type/measure.ts';
import { numbersOfMatter } from './numbers.ts';

/** Flap up wants a person, blue asks, half down is told only. */
export function markOfMatter(matter: Matter): string {
  switch (matter.kind) {
    case 'unexplainedStop':
    case 'whichButton':
      return 'n-want';
    case 'stationAbnormal':
    case 'guardOpenRunning':
    case 'devicePressedRunning':
    case 'olderFindings':
    case 'notRecorded':
      return 'n-open';
    case 'clockOff':
    case 'clockSet':
    case 'counterReset':
    case 'notSeen':
    case 'further':
      return 'n-taken';
  }
}

export function keyOfMatter(matter: Matter): string {
  switch (matter.kind) {
    case 'unexplainedStop':
      return matter.stop;
    case 'stationAbnormal':
      return `${matter.kind}${matter.station}`;
    case 'guardOpenRunning':
    case 'devicePressedRunning':
    case 'olderFindings':
      return matter.id;
    case 'whichButton':
      return matter.press;
    case 'clockOff':
    case 'clockSet':
      return `${matter.kind}${matter.server}`;
    case 'counterReset':
      return `${matter.kind}${matter.mark}`;
    case 'notSeen':
      return `${matter.kind}${matter.from}`;
    case 'notRecorded':
    case 'further':
      return matter.kind;
  }
}

export type Finding = Extract<
  Matter,
  { kind: 'guardOpenRunning' | 'devicePressedRunning' | 'olderFindings' }
>;

/** What may bring someone to a guard or a stop device: the caution stands with it. */
export function isFinding(matter: Matter): matter is Finding {
  return ['guardOpenRunning', 'devicePressedRunning', 'olderFindings'].includes(matter.kind);
}

/** Room that the caution takes on the wall. */
const CAUTION_HEIGHT = 80;

/** The wall's open notices: as many as find room in `height`, and how many more there are. It never asks. */
export function WallMatters({ height }: { readonly height: number }) {
  const matters = usePart('matters');
  const told = useTold(useMoment());
  const { matters: said } = words.screen.line;
  const listed = matters.filter(({ kind }) => kind !== 'further');
  const further = matters.reduce((sum, matter) => (matter.kind === 'further' ? sum + matter.count : sum), 0);
  const items = listed.map((matter) => ({ matter, said: said.said(matter, told) }));
  const warns = matters.some(isFinding);
  const shown = thatFit(
    items.map((item) => heightOf(item.said)),
    height - 34 - 30 - (warns ? CAUTION_HEIGHT : 0),
  );
  const rest = items.length - shown + further;
  return (
    <section className="notices">
      <h2>{matters.length === 0 ? said.none : said.title}</h2>
      {warns && <Caution text={words.screen.caution.beside} mark={36} />}
      <ul>
        {items.slice(0, shown).map(({ matter, said: [title, more] }) => (
          <li key={keyOfMatter(matter)}>
            <Mark id={markOfMatter(matter)} size={46} />
            <div>
              <b>
                <Rich text={title} of={numbersOfMatter(matter)} />
              </b>
              <span>
                <Rich text={more} of={numbersOfMatter(matter)} />
              </span>
            </div>
          </li>
        ))}
        {rest > 0 && <li className="rest">{said.more(rest)}</li>}
      </ul>
    </section>
  );
}

/** Height of a notice on the wall: its title may take two lines, so may what belongs to it. */
function heightOf([title, more]: readonly [string, string]): number {
  const lines = (text: string, size: number, bold: boolean) =>
    Math.min(2, Math.ceil(measure(text, size, bold) / 440));
  return 25 + lines(title, 26, true) * 29 + lines(more, 22, false) * 27;
}

function thatFit(heights: readonly number[], room: number): number {
  let used = 0;
  for (const [i, height] of heights.entries()) {
    used += height;
    if (used > room + (i === heights.length - 1 ? 30 : 0)) return i;
  }
  return heights.length;
}
