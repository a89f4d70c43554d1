import type { Entry } from '../../model/entries/entries.ts';
import { isSaidBy, newestOf, type Said, type SaidEntryBody } from '../../model/entries/saidEntries.ts';
import { CORRECTIONS_MOST } from '../../model/fold/said.ts';
import type { FoldState } from '../../model/fold/state.ts';
import { nowOf } from '../../model/fold/takeSaid.ts';
import type { Line } from '../../model/line/line.ts';
import { between, instantFromMs, millis } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { checkClosing } from '../notices/noticeChecks.ts';
import { entryNamesOf } from './entryNames.ts';
import { EntryRefused } from './entrySchema.ts';

const { gateway, screen } = wordsIn('en');
const words = gateway.noSuch;

/** At a panel, what was just entered there can be taken back for so long; the screen shows the key for less. */
const TAKEN_BACK_MS = 90_000;

type OfSaid = Extract<Entry, SaidEntryBody>;
type Check = (entry: Entry) => void;

/** Refuses what names something that the line has not. `check` is that of any entry, for what a correction says. */
export function checkSaid(entry: OfSaid, line: Line, state: Readonly<FoldState>, check: Check): void {
  const mustHave = (station: string) => {
    if (!line.stations.some(({ id }) => id === station)) refuse(words.station(station));
  };
  switch (entry.kind) {
    case 'cause':
      for (const { station } of entry.parts) if (station !== null) mustHave(station);
      return checkParts(entry, state);
    case 'changed': {
      mustHave(entry.station);
      if (entry.notice !== undefined && !state.notices.some(({ id }) => id === entry.notice))
        refuse(wordsIn('en').notices.refused.unknown(entry.notice));
      const { changed } = entry;
      if (changed.of !== 'adjustment') return;
      const known = line.adjustments.some(
        ({ number, station }) => number === changed.adjustment && station === entry.station,
      );
      return known ? undefined : refuse(words.adjustment(changed.adjustment));
    }
    case 'target':
      return line.sizes.some(({ id }) => id === entry.size) ? undefined : refuse(words.size(entry.size));
    case 'correction':
      return checkCorrection(entry, line, state, check);
  }
}

/** A later part begins while the stop lasts. */
function checkParts(entry: OfSaid & { kind: 'cause' }, { stops, at }: Readonly<FoldState>): void {
  const stop = stops.find(({ id }) => id === entry.stop);
  if (!stop) return refuse(words.stop(entry.stop));
  const last = entry.parts.at(-1)!.after;
  const end = stop.end ?? (Math.max(at, instantFromMs(entry.at)) as typeof at);
  if (last > 0 && last >= millis(between(stop.begin, end))) refuse(words.afterStop);
}

function checkCorrection(
  entry: OfSaid & { kind: 'correction' },
  line: Line,
  state: Readonly<FoldState>,
  check: Check,
): void {
  const said = state.said.find((one) => isSaidBy(one, entry.of));
  if (!said) return refuse(words.entry(entry.of));
  const { id, at, author, body } = entry;
  if (said.first.kind !== entry.was || (body && body.kind !== entry.was)) refuse(words.otherKind);
  mustBeNewest(said, entry.of, line);
  if (said.corrections.length >= CORRECTIONS_MOST) refuse(words.correctedEnough);
  if (!body && !nowOf(said)) refuse(words.withdrawnAlready);
  if (author.kind === 'position') {
    const { author: by } = said.first;
    const own = by.kind === 'position' && by.position === author.position;
    if (body || !own || at - said.first.at > TAKEN_BACK_MS) refuse(words.takenBackLate);
  } else if (entry.why === undefined) refuse(words.noWhy);
  if (said.first.kind === 'noticeClosed') checkClosing(said.first, body, state);
  else if (body) check({ ...body, id, at, author });
}

/** [EN1] Of two that correct the same at once the second has not seen the first, and is told what that says. */
function mustBeNewest(said: Said, seen: string, line: Line): void {
  const newest = said.corrections.at(-1);
  if (!newest || newestOf(said) === seen) return;
  const { author, at, body } = newest;
  const { said: sentences } = screen.past;
  const by = sentences.by(author, (id) => line.loading.positions.find((one) => one.id === id)?.name ?? id);
  refuse(
    body
      ? words.correctedSince(by, at, line.zone, sentences.said(body, entryNamesOf(line)))
      : words.withdrawnSince(by, at, line.zone),
  );
}

function refuse(told: { readonly what: string; readonly why: string; readonly mend: string }): never {
  throw new EntryRefused(told.what, told);
}
