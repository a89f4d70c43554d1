import type { Matter } from '../../model/view/matter.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { useTold } from '../blank/told.ts';
import type { Numbered } from '../figures/pieces.ts';
import { Mark } from '../marks/symbols.tsx';
import { MARK_OF } from '../notices/list.tsx';
import { lineRows, mattersBeside, shownNotices } from '../notices/shown.ts';
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
    case 'stillTrial':
    case 'waysWrong':
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
    case 'stillTrial':
    case 'waysWrong':
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

/** Whether anything told may do so: a finding in the list, or a notice of one. */
export function warnsOf(matters: readonly Matter[], shown: readonly NoticeView[]): boolean {
  return matters.some(isFinding) || shown.some(({ kind }) => kind === 'ranOn');
}

/** Room that the caution takes on the wall. */
const CAUTION_HEIGHT = 80;

interface WallRow {
  readonly key: string;
  readonly mark: string;
  readonly said: readonly [string, string];
  readonly of: readonly Numbered[];
}

/** Rows of the wall: what nobody has taken, what is to be known or asked, and what somebody has taken. */
function useWallRows(): { readonly rows: readonly WallRow[]; readonly warns: boolean } {
  const matters = usePart('matters');
  const { open } = usePart('notices');
  const moment = useMoment();
  const told = useTold(moment);
  const shown = shownNotices(open, matters);
  const rowOf = (notice: NoticeView): WallRow => ({
    key: notice.id,
    mark: MARK_OF[notice.state],
    said: [words.noticeSaid.title(notice), words.screen.notices.onWall(notice, moment.now, told.zone)],
    of: [],
  });
  const rows = [
    ...shown.filter(({ state }) => state === 'raised').map(rowOf),
    ...mattersBeside(matters, shown)
      .filter(({ kind }) => kind !== 'further')
      .map((matter) => ({
        key: keyOfMatter(matter),
        mark: markOfMatter(matter),
        said: words.screen.line.matters.said(matter, told),
        of: numbersOfMatter(matter),
      })),
    ...shown.filter(({ state }) => state !== 'raised').map(rowOf),
  ];
  return { rows, warns: warnsOf(matters, shown) };
}

/** The wall's open notices: as many as find room in `height`, and how many more there are. It never asks. */
export function WallMatters({ height }: { readonly height: number }) {
  const matters = usePart('matters');
  const notices = usePart('notices');
  const { rows, warns } = useWallRows();
  const { matters: said } = words.screen.line;
  const besides = lineRows(notices, matters);
  const further = matters.reduce((sum, matter) => (matter.kind === 'further' ? sum + matter.count : sum), 0);
  const fit = thatFit(
    rows.map((row) => heightOf(row.said)),
    height - 34 - 30 - (warns ? CAUTION_HEIGHT : 0),
  );
  const left = said.leftOut(rows.length - fit + further + notices.further, besides);
  return (
    <section className="notices">
      <h2>{said.title(notices.counts, besides)}</h2>
      {warns && <Caution text={words.screen.caution.beside} mark={36} />}
      <ul>
        {rows.slice(0, fit).map(({ key, mark, said: [title, more], of }) => (
          <li key={key}>
            <Mark id={mark} size={46} />
            <div>
              <b>
                <Rich text={title} of={of} />
              </b>
              <span>
                <Rich text={more} of={of} />
              </span>
            </div>
          </li>
        ))}
        {left !== '' && <li className="rest">{left}</li>}
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
