import type { LineEvent } from '../fold/events.ts';
import type { LineFold } from '../fold/fold.ts';
import type { Line } from '../line/line.ts';
import { byLineTime, type Change, type Role } from '../signals/signals.ts';
import { between, type Instant, minutes, type Span } from '../units/units.ts';
import { Arrivals, type Late } from './arrivals.ts';
import { foldKnown } from './foldKnown.ts';
import { foldTape } from './foldTape.ts';
import type { Kept, TapeRead } from './tapeRead.ts';

/** What stands at the positions [from, next): at each place one change, or undefined where it is of no signal of the line. */
export interface Aligned {
  readonly from: number;
  readonly next: number;
  readonly changes: readonly (Change | undefined)[];
}

/** A tape of which the positions are told with what stands there. */
export interface ReplayTape extends TapeRead {
  /** What stands at the positions [from, to), in order. */
  aligned(from: number, to: number): AsyncIterable<Aligned>;
  /** Of positions from `from` on, what is not later than a moment, and what of links is: it came after the replay's end. */
  laterThan(from: number, at: Instant): Promise<readonly Change[]>;
}

export interface ReplayWish {
  readonly line: Line;
  /** Of the model and the line's definition. */
  readonly version: string;
  /** The stretch that is played, in line time. */
  readonly from: Instant;
  readonly to: Instant;
  /** A position by which nothing of the stretch had come. */
  readonly start: number;
  /** Line time at which the tape begins: what claims to be older is not gone back for. */
  readonly oldest?: Instant | undefined;
  readonly progress?: (share: number) => void;
  /** Gives other work its turn; rejects where the replay is not wanted any more. */
  readonly rest?: () => Promise<void>;
}

/** Which of the two: what had come by then, or all that has come since. */
export type As = 'shown' | 'known';

export interface Played {
  /** The line at the moment; it is the replay's own, and only read. */
  readonly fold: LineFold;
  readonly at: Instant;
  /** How many changes of the tape had come by then. */
  readonly position: number;
  readonly as: As;
}

/** Saved states lie at least so far apart, and there are about so many in the longest stretch. */
const APART = minutes(10);
const SNAPSHOTS = 100;
/** Played on without folding anew; a longer way is folded from a saved state. */
const ON_MOST = minutes(15);
/** Roles of counters that move once for each carton at discharge. */
const CARTON: ReadonlySet<Role> = new Set(['goodCount', 'rejectCount']);

/**
 * A stretch of a tape, ready to be looked at at any moment of it (SPEC, RP1): opened by folding it once, with saved states on
 * the way, from which every other moment is a few thousand changes away.
 */
export class Replay {
  private readonly tape: ReplayTape;
  private readonly wish: ReplayWish;
  private readonly snapshots: Kept[] = [];
  private readonly arrivals: Arrivals;
  private readonly read: TapeRead;
  private later: readonly Change[] = [];
  private played: Played | undefined;
  /** Where the stretch begins and ends on the tape. */
  readonly begin: number;
  end = 0;

  private constructor(tape: ReplayTape, wish: ReplayWish) {
    this.tape = tape;
    this.wish = wish;
    this.begin = wish.start;
    this.arrivals = new Arrivals(wish.line, wish.start, wish.oldest);
    this.read = {
      begin: (line) => tape.begin(line),
      end: (line) => tape.end(line),
      read: (line, from, to) => tape.read(line, from, to),
      nearest: (line, position, version) =>
        this.snapshots.findLast((kept) => kept.position <= position) ?? tape.nearest(line, position, version),
    };
  }

  static async open(tape: ReplayTape, wish: ReplayWish): Promise<Replay> {
    const replay = new Replay(tape, wish);
    await replay.go();
    return replay;
  }

  /** The line at a moment of the stretch. */
  async at(moment: Instant, as: As): Promise<Played> {
    const position = this.arrivals.positionAt(moment);
    const { played } = this;
    const near =
      played?.as === as && played.at <= moment && between(played.at, moment) <= ON_MOST ? played : undefined;
    const on = near && (await this.goOn(near, moment, position));
    this.played = on ?? { fold: await this.folded(moment, as, position), at: moment, position, as };
    return this.played;
  }

  /** The same, as a copy that may be stepped on; what is played is not touched by it. */
  async apart(moment: Instant, as: As): Promise<Played> {
    const position = this.arrivals.positionAt(moment);
    return { fold: await this.folded(moment, as, position), at: moment, position, as };
  }

  /** What the tape holds of (from, to], as known now, in line time. */
  async changes(from: Instant, to: Instant): Promise<readonly Change[]> {
    const { arrivals, later } = this;
    const isOf = ({ at }: Change) => at > from && at <= to;
    const last = arrivals.positionBeyond(to);
    const found: Change[] = [];
    for await (const changes of this.tape.read(this.wish.line.id, arrivals.positionAt(from), last))
      for (const change of changes) if (isOf(change)) found.push(change);
    const all = [...found, ...arrivals.lateAt(to, last).filter(isOf), ...later.filter(isOf)];
    return all.filter((change) => !this.wasNone(change)).sort(byLineTime);
  }

  /** The next moment at which anything came, or the one before; undefined at the end of the stretch. */
  async step(moment: Instant, by: 'change' | 'carton', way: 1 | -1): Promise<Instant | undefined> {
    const here = this.arrivals.positionAt(moment);
    const isOne = ({ signal }: Change) => by === 'change' || CARTON.has(this.wish.line.signals[signal]!.role);
    let found: Instant | undefined;
    if (way > 0) {
      for await (const chunk of this.tape.aligned(here, this.end))
        for (const [place, change] of chunk.changes.entries()) {
          const at = this.arrivals.momentOf(chunk.from + place + 1);
          if (change && isOne(change) && at !== undefined && at > moment) return at;
        }
      return undefined;
    }
    for (let until = here; until > this.begin && found === undefined; until -= LOOK_BACK) {
      const from = Math.max(this.begin, until - LOOK_BACK);
      for await (const chunk of this.tape.aligned(from, until))
        for (const [place, change] of chunk.changes.entries()) {
          const at = this.arrivals.momentOf(chunk.from + place + 1);
          if (change && isOne(change) && at !== undefined && at < moment) found = at;
        }
    }
    return found;
  }

  /** Where nothing came from a server for a time, whatever came of it later: screens of those moments could not show it. */
  get unheard(): readonly { readonly from: Instant; readonly to: Instant }[] {
    const lost = new Map<number, Instant>();
    const found: { readonly from: Instant; readonly to: Instant }[] = [];
    for (const { position, change } of this.arrivals.links) {
      if (change.value === false) {
        if (!lost.has(change.signal)) lost.set(change.signal, change.at);
        continue;
      }
      const from = lost.get(change.signal);
      lost.delete(change.signal);
      const to = this.arrivals.momentOf(position + 1);
      if (from !== undefined && to !== undefined && to > from) found.push({ from, to });
    }
    for (const from of lost.values()) found.push({ from, to: this.wish.to });
    return found.filter(({ from, to }) => from < this.wish.to && to > this.wish.from);
  }

  /** Whether it told of a link's loss that turned out to have missed nothing. */
  private wasNone(change: Change): boolean {
    if (change.value !== false || this.wish.line.signals[change.signal]!.role !== 'link') return false;
    const links = [...this.arrivals.links.map((link) => link.change), ...this.later];
    const next = links.find(({ signal, at }) => signal === change.signal && at > change.at);
    return next?.value === 'whole';
  }

  /** False where so much came late that it is not all held, and what is known now cannot be told. */
  get whole(): boolean {
    return this.arrivals.whole;
  }

  private async go(): Promise<void> {
    const { tape, wish, arrivals } = this;
    const { line, from, to, version, oldest, progress = () => {}, rest = async () => {} } = wish;
    let { fold } = await foldTape(this.read, line, { version, end: wish.start });
    this.keep(fold, wish.start);
    const apart = Math.max(APART, between(from, to) / SNAPSHOTS) as Span;
    let keptAt = fold.state.at;
    let position = wish.start;
    for await (const chunk of tape.aligned(position, tape.end(line.id))) {
      const changes = chunk.changes.filter((change) => change !== undefined);
      arrivals.take(chunk.changes, chunk.from);
      position = chunk.next;
      arrivals.end = position;
      const events = fold.take(changes);
      if (this.isBeyond(events))
        ({ fold } = await foldTape(this.read, line, { version, end: position, rest, oldest }));
      if (between(keptAt, fold.state.at) >= apart) {
        this.keep(fold, position);
        keptAt = fold.state.at;
      }
      const reached = arrivals.moment;
      if (reached !== undefined && reached > to) break;
      if (reached !== undefined) progress(Math.max(0, (reached - from) / (to - from)));
      await rest();
    }
    arrivals.finish();
    this.end = arrivals.positionAt(to);
    const later = await tape.laterThan(position, to);
    this.later = later.filter(({ at }) => at >= (oldest ?? 0));
  }

  /** Whether something came so late that it has to be folded anew from further back. */
  private isBeyond(events: readonly LineEvent[]): boolean {
    const { oldest = 0 } = this.wish;
    return events.some((event) => event.kind === 'BeyondReach' && event.at >= oldest);
  }

  private keep(fold: LineFold, position: number): void {
    // what `save` gives, as text at once
    this.snapshots.push({ position, body: `{"state":${fold.text()}}` });
  }

  /** From where it was played last, by what came since; undefined where that is not all there is to it. */
  private async goOn(played: Played, moment: Instant, position: number): Promise<Played | undefined> {
    const { line } = this.wish;
    const take = (changes: readonly Change[]) => !this.isBeyond(played.fold.take(changes));
    if (played.as === 'known') {
      // what is known of a link's loss is told by what came of it
      const isOdd = (link: Late) => link.position >= played.position && link.change.at <= moment;
      if (this.arrivals.links.some(isOdd)) return undefined;
      if (!take(await this.changes(played.at, moment))) return undefined;
    } else
      for await (const changes of this.tape.read(line.id, played.position, position))
        if (!take(changes)) return undefined;
    return { ...played, at: moment, position };
  }

  private async folded(moment: Instant, as: As, position: number): Promise<LineFold> {
    const { line, version, rest, oldest } = this.wish;
    if (as === 'shown') {
      const more = rest ? { rest } : {};
      const { fold } = await foldTape(this.read, line, { version, end: position, oldest, ...more });
      return fold;
    }
    const until = this.arrivals.positionBeyond(moment);
    const isLink = ({ signal }: Change) => line.signals[signal]!.role === 'link';
    const late = [
      ...this.arrivals.lateAt(moment, until),
      ...this.later.filter(({ at }) => at <= moment),
    ].filter((change) => !isLink(change));
    // a link that was lost may turn out, when it is made again, to have missed nothing
    const links = [
      ...this.arrivals.links.flatMap((link) => (link.position >= until ? [link.change] : [])),
      ...this.later.filter(isLink),
    ];
    const fold = await foldKnown(this.read, line, {
      ...{ version, at: moment, until, late: [...late, ...links] },
    });
    return fold ?? this.folded(moment, 'shown', position);
  }
}

/** Changes looked through at one go, backwards. */
const LOOK_BACK = 2000;
