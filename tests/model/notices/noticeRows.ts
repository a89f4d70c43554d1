import type { Author, Entry, EntryBody } from '../../../model/entries/entries.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { Condition, Conditions } from '../../../model/notices/condition.ts';
import { decide } from '../../../model/notices/decide.ts';
import type { NoticeRecord } from '../../../model/notices/notice.ts';
import { FIRST_SETTINGS, type NoticeRules } from '../../../model/notices/settings.ts';
import { type EpochMs, epochMs } from '../../../model/units/units.ts';
import { at, changes, goods, type Rows, running, smallLine } from '../smallLine.ts';

export const fitter: Author = { kind: 'person', number: '12' };
export const itself: Author = { kind: 'itself' };

let made = 0;

/** A row of the tape with an entry, so many seconds after six. */
export function entered(after: number, body: EntryBody, author: Author = itself): Rows[number] {
  made += 1;
  const entry = { id: `e${made}`, at: epochMs(at(after)), author, ...body } as Entry;
  return [after, 'entry', JSON.stringify(entry)];
}

/** Stops at a station beyond its own normal, as a condition that holds. */
export function stops(station: string, more: Partial<Condition> = {}): Condition {
  return {
    key: `stops/${station}`,
    level: 'call',
    facts: {
      kind: 'stops',
      stops: 3,
      cartons: 240,
      from: epochMs(at(0)),
      usualCartons: 2400,
      onceInShifts: 19,
    },
    since: at(0),
    station,
    look: [],
    ...more,
  };
}

export function holds(kind: 'rate' | 'unseen' | 'server', more: Partial<Condition> = {}): Condition {
  const since = epochMs(at(0));
  const facts = {
    rate: { kind: 'rate', perMinute: 30, target: 60, minutes: 30, since },
    unseen: { kind: 'unseen', since },
    server: { kind: 'server', server: 'plc', since },
  } as const;
  return { key: kind, level: 'note', facts: facts[kind], since: at(0), look: [], ...more };
}

/** Devices that are due a test. */
export function due(...devices: readonly string[]): Condition {
  const facts = {
    kind: 'test',
    devices: devices.map((device) => ({ device, name: device })),
    everyDays: 30,
  } as const;
  return { key: 'test', level: 'note', facts, since: at(0), look: [] };
}

/** A press by its id. */
export function pressed(press: string, more: Partial<Condition> = {}): Condition {
  const facts = { kind: 'press', press, device: 'main panel', role: 'caused', candidates: [] } as const;
  return { key: `press/${press}`, level: 'urgent', facts, since: at(0), look: [], ...more };
}

/** A line whose notices are decided as a gateway does: second by second, and written before the next is asked. */
export class Noticed {
  readonly line = smallLine();
  readonly fold: LineFold;
  readonly rows: Rows[number][] = [];
  rules: NoticeRules = FIRST_SETTINGS.when;

  constructor() {
    this.fold = new LineFold(this.line);
    this.take([...running(), ...goods(1, 5, 1)]);
  }

  get notices(): readonly NoticeRecord[] {
    return this.fold.state.notices;
  }

  take(rows: Rows): void {
    this.rows.push(...rows);
    this.fold.take(changes(this.line, rows));
  }

  enter(after: number, body: EntryBody, author: Author = fitter): void {
    this.take([entered(after, body, author)]);
  }

  /** What holds, so many seconds after six: all that is to be written is written; how much it was. */
  look(
    after: number,
    present: readonly Condition[],
    undecided: Conditions['undecided'] = () => false,
  ): number {
    for (let written = 0; ; ) {
      const bodies = this.asked(after, present, undecided);
      if (bodies.length === 0) return written;
      written += bodies.length;
      for (const body of bodies) this.take([entered(after, body)]);
      if (written > 500) throw new Error('It never ends.');
    }
  }

  asked(after: number, present: readonly Condition[], undecided: Conditions['undecided'] = () => false) {
    const { state } = this.fold;
    return decide({ state, rules: this.rules, conditions: { present, undecided }, now: at(after) });
  }

  story(place = 0): readonly string[] {
    return this.notices[place]!.story.map(({ what }) => what);
  }
}

export const until = (after: number): EpochMs => epochMs(at(after));
