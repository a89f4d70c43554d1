import { after, type Instant, minutes, type Span } from '../units/units.ts';
import { type Clocks, type Hours, isReachable, reachableAfter } from './recipientHours.ts';
import { nextHandOver, onCall, type Rota } from './recipientRota.ts';

/** note: when it suits. call: somebody should come. urgent: quiet hours and shifts do not hold it back. */
export type NoticeLevel = 'note' | 'call' | 'urgent';
export const NOTICE_LEVELS: readonly NoticeLevel[] = ['note', 'call', 'urgent'];

/** What decides who is told of a notice. */
export interface NoticeHead {
  readonly id: string;
  readonly at: Instant;
  readonly level: NoticeLevel;
  readonly line: string;
  readonly station?: string;
}

/** Who can be told, when and by which ways. People have numbers here; names and addresses stand elsewhere. */
export interface RecipientSettings {
  readonly recipients: readonly Recipient[];
  readonly rotas: readonly Rota[];
  /** The first that fits a notice counts. Where none fits, everybody is told. */
  readonly plans: readonly Plan[];
}

export interface Recipient {
  readonly person: string;
  /** `page`, `mail`, or the name of a webhook: all of them are used. */
  readonly ways: readonly string[];
  readonly when: Hours;
  /** At most one false call in so many of this person's shifts; as the settings of the line say where nothing is set. */
  readonly falseOnceInShifts?: number;
  /** Stations whose own normal this person watches, by id: all of them where nothing is set. */
  readonly stations?: readonly string[];
}

/** Who is told first, and who when nobody acknowledges it. What is undefined fits everything. */
export interface Plan {
  readonly lines?: readonly string[];
  readonly stations?: readonly string[];
  readonly levels?: readonly NoticeLevel[];
  readonly steps: readonly Step[];
}

export interface Step {
  /** Since the notice was raised; nobody has acknowledged it by then. */
  readonly afterMinutes: number;
  readonly tell: readonly Target[];
}

export type Target =
  | { readonly kind: 'person'; readonly person: string }
  | { readonly kind: 'rota'; readonly rota: string };

/** What became of a notice so far. */
export interface Standing {
  /** Who has been told, or is being told; `failed` where that way came to nothing. */
  readonly told: readonly Told[];
  readonly acknowledged: boolean;
}

export interface Told {
  readonly person: string;
  readonly way: string;
  readonly failed?: boolean;
}

export interface Telling {
  readonly person: string;
  readonly way: string;
  /** Which step of the plan, from 0 on. */
  readonly step: number;
  /** earlier: nobody before could be told. anyway: nobody at all could, so their hours do not count. */
  readonly because: 'step' | 'earlier' | 'anyway';
}

export interface Decision {
  readonly tell: readonly Telling[];
  /** When to look again, unless something is acknowledged or fails before; undefined when nothing more comes. */
  readonly next?: Instant | undefined;
}

/** A note waits for somebody's hours so long: they come again every week. */
const NOTE_WAITS: Span = minutes(7 * 24 * 60);

/**
 * Who is to be told of a notice now, and when to look again. As long as nobody has acknowledged it, whoever a due step
 * names is told once by each of their ways, as soon as their hours allow: so somebody who takes over takes over what
 * is open. A call that reaches nobody goes to the next step at once, and at last to people outside their hours; a note
 * waits for them, a week at most. A moment before the notice, as after a clock was set back, counts as that of the notice.
 */
export function whomToTell(
  settings: RecipientSettings,
  clocks: Clocks,
  notice: NoticeHead,
  standing: Standing,
  moment: Instant,
): Decision {
  if (standing.acknowledged) return { tell: [] };
  const at = Math.max(moment, notice.at) as Instant;
  const asked: Asked = {
    settings,
    clocks,
    notice,
    standing,
    at,
    steps: stepsFor(settings, notice, clocks.zone, at),
  };
  const { tell, used } = bySteps(asked);
  const heard = standing.told.some(({ failed }) => !failed);
  const waits = notice.level === 'note' && at < after(notice.at, NOTE_WAITS);
  const found = tell.length > 0 || heard || waits ? tell : anyway(asked);
  // looked for only where somebody asks: hours of many people take their time
  return {
    tell: found,
    get next() {
      return lookAgain(asked, used, waits && !heard && tell.length === 0);
    },
  };
}

interface Asked {
  readonly settings: RecipientSettings;
  readonly clocks: Clocks;
  readonly notice: NoticeHead;
  readonly standing: Standing;
  readonly at: Instant;
  readonly steps: readonly Step[];
}

/** The steps of the plan that fits; everybody at once where it names nobody at that moment who could be told. */
export function stepsFor(
  { recipients, rotas, plans }: RecipientSettings,
  notice: NoticeHead,
  zone: string,
  at: Instant,
): readonly Step[] {
  const plan = plans.find(
    ({ lines, stations, levels }) =>
      (lines?.includes(notice.line) ?? true) &&
      (stations === undefined || (notice.station !== undefined && stations.includes(notice.station))) &&
      (levels?.includes(notice.level) ?? true),
  );
  const steps = (plan?.steps ?? []).toSorted((a, b) => a.afterMinutes - b.afterMinutes);
  const known = new Set(recipients.filter(({ ways }) => ways.length > 0).map(({ person }) => person));
  const names = (target: Target) => {
    const rota = target.kind === 'rota' ? rotas.find(({ id }) => id === target.rota) : undefined;
    const person = target.kind === 'person' ? target.person : rota && onCall(rota, zone, at);
    return person !== undefined && known.has(person);
  };
  if (steps.some(({ tell }) => tell.some(names))) return steps;
  const everybody = recipients.map(({ person }) => ({ kind: 'person' as const, person }));
  return [{ afterMinutes: 0, tell: everybody }];
}

/** Whom the steps name that are due, and those after them as long as nobody could be told; `used` steps were looked at. */
function bySteps(asked: Asked): { readonly tell: readonly Telling[]; readonly used: number } {
  const { notice, standing, at, steps } = asked;
  const tell: Telling[] = [];
  let heard = standing.told.some(({ failed }) => !failed);
  for (const [step, { afterMinutes }] of steps.entries()) {
    const due = after(notice.at, minutes(afterMinutes)) <= at;
    if (!due && (heard || notice.level === 'note')) return { tell, used: step };
    for (const { recipient, duty } of named(asked, step)) {
      if (!mayBeTold(asked, recipient, duty)) continue;
      tell.push(
        ...untold(asked, recipient, tell).map((way) =>
          telling(recipient, way, step, due ? 'step' : 'earlier'),
        ),
      );
    }
    heard ||= tell.length > 0;
  }
  return { tell, used: steps.length };
}

/** Nobody could be told within their hours, and it cannot wait: the first whom the plan names, else anybody. */
function anyway(asked: Asked): readonly Telling[] {
  for (const step of asked.steps.keys()) {
    const found = named(asked, step).flatMap(({ recipient }) =>
      untold(asked, recipient, []).map((way) => telling(recipient, way, step, 'anyway')),
    );
    if (found.length > 0) return once(found);
  }
  const last = Math.max(0, asked.steps.length - 1);
  return once(
    asked.settings.recipients.flatMap((recipient) =>
      untold(asked, recipient, []).map((way) => telling(recipient, way, last, 'anyway')),
    ),
  );
}

/** The next step, the beginning of somebody's hours, or a hand-over: whatever comes first. */
function lookAgain(asked: Asked, used: number, waits: boolean): Instant | undefined {
  const { settings, clocks, notice, at, steps } = asked;
  const moments = steps.map(({ afterMinutes }) => after(notice.at, minutes(afterMinutes)));
  if (waits) moments.push(after(notice.at, NOTE_WAITS));
  for (const step of steps.keys()) {
    if (step >= used) break;
    for (const { recipient, duty } of named(asked, step)) {
      if (untold(asked, recipient, []).length === 0 || mayBeTold(asked, recipient, duty)) continue;
      moments.push(reachableAfter(recipient.when, clocks, at) ?? at);
    }
    for (const target of steps[step]!.tell) {
      const rota = target.kind === 'rota' && settings.rotas.find(({ id }) => id === target.rota);
      if (rota) moments.push(nextHandOver(rota, clocks.zone, at) ?? at);
    }
  }
  return moments.filter((moment) => moment > at).sort((a, b) => a - b)[0];
}

interface Named {
  readonly recipient: Recipient;
  /** On call: a call comes at any hour then. */
  readonly duty: boolean;
}

function named({ settings, clocks, at, steps }: Asked, step: number): readonly Named[] {
  return (steps[step]?.tell ?? []).flatMap((target) => {
    const rota = target.kind === 'rota' ? settings.rotas.find(({ id }) => id === target.rota) : undefined;
    const person = target.kind === 'person' ? target.person : rota && onCall(rota, clocks.zone, at);
    const recipient = settings.recipients.find((one) => one.person === person);
    return recipient ? [{ recipient, duty: target.kind === 'rota' }] : [];
  });
}

function mayBeTold({ notice, clocks, at }: Asked, { when }: Recipient, duty: boolean): boolean {
  if (notice.level === 'urgent' || (notice.level === 'call' && duty)) return true;
  return isReachable(when, clocks, at);
}

/** Ways of somebody by which this notice has not gone to them, nor goes to them now. */
function untold(
  { standing }: Asked,
  { person, ways }: Recipient,
  now: readonly Telling[],
): readonly string[] {
  const gone = [...standing.told, ...now].filter((one) => one.person === person).map(({ way }) => way);
  return [...new Set(ways)].filter((way) => !gone.includes(way));
}

function telling({ person }: Recipient, way: string, step: number, because: Telling['because']): Telling {
  return { person, way, step, because };
}

function once(tellings: readonly Telling[]): readonly Telling[] {
  const same = (a: Telling, b: Telling) => a.person === b.person && a.way === b.way;
  return tellings.filter((one, place) => tellings.findIndex((other) => same(one, other)) === place);
}
