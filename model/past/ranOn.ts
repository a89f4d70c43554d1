import type { Author, Entry } from '../entries/entries.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { OpenMatter } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import {
  between,
  type EpochMs,
  epochMs,
  type Instant,
  type Millis,
  millis,
  type Span,
  seconds,
} from '../units/units.ts';
import type { Use, UseRecords } from './uses.ts';

/**
 * A guard read open, or a stop device read pressed, while the line ran.
 * lasts: it still is. open: over, and nobody has closed it. closed: a person has, with what was found.
 * older: closed with others that the list had no room for. explained: no finding was made of it.
 */
export interface RanOn {
  readonly id: string;
  /** Id of the device or guard. */
  readonly of: string;
  readonly name: string;
  readonly kind: 'pressed' | 'opened';
  readonly reading: 'lasts' | 'open' | 'closed' | 'older' | 'explained';
  readonly at: EpochMs;
  readonly until: EpochMs | undefined;
  /** How long the line ran meanwhile. */
  readonly ran: Millis;
  readonly closed:
    | { readonly at: EpochMs; readonly words: string | undefined; readonly author: Author }
    | undefined;
  readonly lanes: Lanes;
}

/** Two lanes of time around it, in shares of the stretch that is drawn. */
export interface Lanes {
  readonly from: EpochMs;
  readonly to: EpochMs;
  readonly ran: readonly Share[];
  readonly unseen: readonly Share[];
  readonly read: Share;
}

/** From one share of a stretch to another, 0 to 1. */
export interface Share {
  readonly from: number;
  readonly to: number;
}

export interface RanOnAsked extends Pick<UseRecords, 'stops' | 'gaps'> {
  readonly index: LineIndex;
  /** Not before `from`, not after `to`. */
  readonly uses: readonly Use[];
  readonly from: Instant;
  readonly to: Instant;
  /** Those of the stretch, those that are not closed from before it, and what still lasts. */
  readonly findings: readonly OpenMatter[];
  /** Ids of those that nobody has closed. */
  readonly open: ReadonlySet<string>;
  readonly entries: readonly RecordBodies['entry'][];
}

/** Shorter ones are no findings: an input may lag so much. As with the findings themselves. */
const RUN_ON = seconds(2);
/** Drawn before and after, at least. */
const AROUND = seconds(3);

/** What lasts first, then what nobody has closed, then the rest; each the newest first. */
export function ranOnOf(asked: RanOnAsked): readonly RanOn[] {
  const found = asked.findings.map((finding) => findingRow(asked, finding));
  const explained = asked.uses
    .filter((use) => !asked.findings.some((finding) => covers(finding, use)))
    .flatMap((use) => explainedRow(asked, use));
  const turn = ({ reading }: RanOn) => (reading === 'lasts' ? 0 : reading === 'open' ? 1 : 2);
  return [...found, ...explained].sort((a, b) => turn(a) - turn(b) || b.at - a.at);
}

function findingRow(asked: RanOnAsked, finding: OpenMatter): RanOn {
  const { id, of, at, to, spent } = finding;
  const entry = asked.entries.find((one) => one.entry.kind === 'closed' && one.entry.finding === id);
  const closed = entry?.entry.kind === 'closed' && { at: epochMs(entry.at), ...withWords(entry.entry) };
  const use = asked.uses.findLast((one) => one.of === of && covers(finding, one));
  return {
    id,
    of,
    name: nameOf(asked.index, of),
    kind: finding.kind === 'guardOpenRunning' ? 'opened' : 'pressed',
    reading: to === null ? 'lasts' : asked.open.has(id) ? 'open' : closed ? 'closed' : 'older',
    at: epochMs(at),
    until: to === null ? undefined : epochMs(to),
    ran: millis(spent),
    closed: closed || undefined,
    lanes: lanesOf(asked, {
      from: Math.min(at, use?.at ?? at) as Instant,
      to: Math.max(to ?? asked.to, use?.released ?? 0) as Instant,
    }),
  };
}

function withWords({ words, author }: Entry & { kind: 'closed' }) {
  return { words, author };
}

/** The line ran on, and yet the fold made no finding of it: a signal explained it, or the reading was in doubt. */
function explainedRow(asked: RanOnAsked, use: Use): RanOn[] {
  const { at, released, owned } = use;
  if (!owned || released === null) return [];
  const span = { from: at, to: released };
  const ran = pieces(span, [...asked.stops.map(spanOf(asked.to)), ...asked.gaps]).reduce(
    (sum, piece) => sum + piece.to - piece.from,
    0,
  );
  if (ran <= RUN_ON) return [];
  return [
    {
      id: use.id,
      of: use.of,
      name: nameOf(asked.index, use.of),
      kind: use.kind,
      reading: 'explained',
      at: epochMs(at),
      until: epochMs(released),
      ran: millis(ran as Span),
      closed: undefined,
      lanes: lanesOf(asked, span),
    },
  ];
}

function lanesOf({ stops, gaps, to }: RanOnAsked, read: Stretch): Lanes {
  const around = Math.max(AROUND, between(read.from, read.to) * 0.6);
  const all = { from: (read.from - around) as Instant, to: Math.min(to, read.to + around) as Instant };
  const share = (one: Stretch): Share => ({
    from: Math.max(0, (one.from - all.from) / (all.to - all.from)),
    to: Math.min(1, (one.to - all.from) / (all.to - all.from)),
  });
  const unseen = gaps.filter((gap) => gap.from < all.to && gap.to > all.from);
  return {
    from: epochMs(all.from),
    to: epochMs(all.to),
    ran: pieces(all, [...stops.map(spanOf(to)), ...unseen]).map(share),
    unseen: unseen.map(share),
    read: share(read),
  };
}

interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** What is left of a stretch outside others. */
function pieces(of: Stretch, others: readonly Stretch[]): readonly Stretch[] {
  let left: Stretch[] = [of];
  for (const other of others) {
    if (other.from >= of.to || other.to <= of.from) continue;
    left = left.flatMap((piece) => [
      ...(other.from > piece.from
        ? [{ from: piece.from, to: Math.min(piece.to, other.from) as Instant }]
        : []),
      ...(other.to < piece.to ? [{ from: Math.max(piece.from, other.to) as Instant, to: piece.to }] : []),
    ]);
  }
  return left;
}

function spanOf(now: Instant) {
  return ({ begin, end }: { readonly begin: Instant; readonly end: Instant | null }): Stretch => ({
    from: begin,
    to: end ?? now,
  });
}

/** Whether a use is the reading that a finding was made of. */
function covers(finding: OpenMatter, use: Use): boolean {
  return (
    finding.of === use.of &&
    use.at <= (finding.to ?? Number.POSITIVE_INFINITY) &&
    (use.released ?? Number.POSITIVE_INFINITY) >= finding.at
  );
}

function nameOf({ line }: LineIndex, of: string): string {
  return [...line.devices, ...line.guards].find(({ id }) => id === of)?.name ?? of;
}
