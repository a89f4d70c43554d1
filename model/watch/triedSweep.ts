import { freshState } from '../fold/freshState.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import { takeNotice } from '../fold/notices.ts';
import type { FoldState } from '../fold/state.ts';
import { kindOfKey } from '../notices/condition.ts';
import { decide } from '../notices/decide.ts';
import { recipientsOf } from '../notices/heard.ts';
import type { NoticeKind, NoticeRecord } from '../notices/notice.ts';
import type { NoticeProgramBody } from '../notices/noticeEntries.ts';
import { whomToTell } from '../notices/recipients.ts';
import type { NoticeSettings } from '../notices/settings.ts';
import { type ShutOff, withoutShutOff } from '../notices/shutOff.ts';
import { epochMs, type Instant } from '../units/units.ts';
import { ALWAYS_KNOWN } from './conditions.ts';
import type { Held } from './heldThen.ts';

export interface SweepAsked {
  readonly index: LineIndex;
  readonly settings: NoticeSettings;
  readonly shutOff: ShutOff;
  /** What is raised before is not counted: it only stands there already. */
  readonly from: Instant;
  readonly held: readonly Held[];
  /** While nobody sees the line what is said of it stays as it was. */
  readonly gaps: readonly { readonly from: Instant; readonly to: Instant }[];
}

export interface Swept {
  readonly notices: ReadonlyMap<NoticeKind, number>;
  readonly joined: ReadonlyMap<NoticeKind, number>;
  readonly told: ReadonlyMap<string, number>;
  readonly nobody: number;
}

/** A note that waits for somebody's hours is looked at so often at most. */
const LOOKS_MOST = 50;

/**
 * [NT1] What held is decided upon as it is live, moment by moment, each notice being taken as soon as it was told. It stops
 * after each moment, and each look at people's hours, so that whoever runs it can do something else in between.
 */
export function* triedSweep(asked: SweepAsked): Generator<undefined, Swept> {
  const sweep = new Sweep(asked);
  const moments = [...asked.held, ...asked.gaps].flatMap(({ from, to }) => [from, to]);
  for (const at of [...new Set(moments)].sort((a, b) => a - b)) {
    yield* sweep.to(at);
    yield;
  }
  return sweep;
}

class Sweep implements Swept {
  readonly notices = new Map<NoticeKind, number>();
  readonly joined = new Map<NoticeKind, number>();
  readonly told: Map<string, number>;
  private readonly asked: SweepAsked;
  private readonly state: FoldState;
  private readonly coming: Held[];
  private readonly gaps: SweepAsked['gaps'];
  private readonly active = new Map<string, Held>();
  /** Raised and told to nobody yet: whoever wants stronger evidence may be told of them later. */
  private readonly unheard = new Set<string>();
  private made = 0;

  constructor(asked: SweepAsked) {
    this.asked = asked;
    this.state = freshState(asked.index);
    // the next one is the last
    this.coming = asked.held.toSorted((a, b) => b.from - a.from);
    this.gaps = asked.gaps.toSorted((a, b) => a.from - b.from);
    this.told = new Map(asked.settings.who.recipients.map(({ person }) => [person, 0]));
  }

  get nobody(): number {
    return this.unheard.size;
  }

  *to(at: Instant): Generator<undefined, void> {
    for (const [key, { to }] of this.active) if (to <= at) this.active.delete(key);
    for (let next = this.coming.at(-1); next && next.from <= at; next = this.coming.at(-1)) {
      this.coming.pop();
      if (next.to > at) this.active.set(next.condition.key, next);
    }
    const blind = this.gaps.some(({ from, to }) => from <= at && at < to);
    const isKnown = (key: string) => !blind || ALWAYS_KNOWN.has(kindOfKey(key));
    const present = [...this.active.values()]
      .map(({ condition }) => condition)
      .filter(({ key }) => isKnown(key));
    const conditions = { present, undecided: (key: string) => !isKnown(key) };
    const { when } = this.asked.settings;
    for (let more = true; more; ) {
      const bodies = decide({ state: this.state, rules: when, conditions, now: at });
      for (const body of bodies) yield* this.write(body, at);
      more = bodies.length > 0;
    }
  }

  private *write(body: NoticeProgramBody, at: Instant): Generator<undefined, void> {
    this.enter(body, at);
    if (body.kind === 'noticeMoved' && body.to === 'stronger' && this.unheard.has(body.notice))
      yield* this.tell(body.notice, at);
    if (body.kind !== 'noticeRaised') return;
    const { kind } = body.facts;
    if (body.within !== undefined) return this.count(this.joined, kind, at);
    this.count(this.notices, kind, at);
    if (at >= this.asked.from) this.unheard.add(body.notice);
    yield* this.tell(body.notice, at);
    this.enter({ kind: 'noticeTaken', notice: body.notice }, at);
  }

  private enter(body: NoticeProgramBody | { kind: 'noticeTaken'; notice: string }, at: Instant): void {
    this.made += 1;
    const entry = { ...body, id: String(this.made), at: epochMs(at), author: { kind: 'itself' } } as const;
    takeNotice({ index: this.asked.index, state: this.state, emit: () => {} }, entry, at);
  }

  private count<Of>(counts: Map<Of, number>, of: Of, at: Instant): void {
    if (at >= this.asked.from) counts.set(of, (counts.get(of) ?? 0) + 1);
  }

  private *tell(id: string, at: Instant): Generator<undefined, void> {
    const notice = this.state.notices.find((one) => one.id === id);
    const people = notice ? yield* toldOf(this.asked, notice, at) : new Set<string>();
    if (people.size > 0) this.unheard.delete(id);
    for (const person of people) this.count(this.told, person, at);
  }
}

/** Whom the first step of its plan reaches; a note waits for their hours. An open page counts as open. */
function* toldOf(
  { index: { line }, settings, shutOff }: SweepAsked,
  notice: Readonly<NoticeRecord>,
  now: Instant,
): Generator<undefined, ReadonlySet<string>> {
  const who = withoutShutOff(recipientsOf(notice, settings, line.stations.length), shutOff);
  const { id, level, station } = notice;
  const head = { id, level, line: line.id, at: now, ...(station === null ? {} : { station }) };
  let at: Instant | undefined = now;
  for (let look = 0; at !== undefined && look < LOOKS_MOST && who.recipients.length > 0; look += 1) {
    const decision = whomToTell(who, line, head, { told: [], acknowledged: false }, at);
    if (decision.tell.length > 0) return new Set(decision.tell.map(({ person }) => person));
    // hours of many people take their time
    yield;
    at = decision.next;
    yield;
  }
  return new Set();
}
