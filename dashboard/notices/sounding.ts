import type { NoticeView } from '../../model/view/noticesView.ts';

/** Urgent ones are heard again after so long, until somebody takes them. Milliseconds. */
export const AGAIN_MS = 30_000;
/** So long whoever is told may take to be told, before it counts as told to nobody. Milliseconds. */
export const TELLING_MS = 5_000;
/** What was heard is remembered, so many of the newest. */
const HEARD_MOST = 200;

/** When each notice was heard last, by its id and round: one that comes back is heard anew. */
export type Heard = ReadonlyMap<string, number>;

export interface Sounding {
  /** The gravest of what is to be heard now; undefined for silence. */
  readonly tone: 'call' | 'urgent' | undefined;
  readonly heard: Heard;
}

/**
 * What an open page is to sound for now, and what it has sounded for then. `person`: the number of who is logged in, who
 * hears what is told to that number, and what is told to nobody; without a log-in all is heard.
 */
export function soundingOf(
  open: readonly NoticeView[],
  heard: Heard,
  person: string | undefined,
  now: number,
): Sounding {
  const due = open.filter((notice) => isFor(notice, person, now) && isDue(notice, heard, now));
  if (due.length === 0) return { tone: undefined, heard };
  const next = new Map(heard);
  for (const notice of due) next.set(keyOf(notice), now);
  const tone = due.some(({ level }) => level === 'urgent') ? 'urgent' : 'call';
  return { tone, heard: new Map([...next].slice(-HEARD_MOST)) };
}

function isDue(notice: NoticeView, heard: Heard, now: number): boolean {
  const { level, state } = notice;
  if (level === 'note' || (state !== 'raised' && state !== 'returned')) return false;
  const before = heard.get(keyOf(notice));
  if (before === undefined) return true;
  return level === 'urgent' && state === 'raised' && now - before >= AGAIN_MS;
}

function isFor({ at, told, round, coming }: NoticeView, person: string | undefined, now: number): boolean {
  if (person === undefined) return true;
  const reached = told.filter((one) => one.round === round && !one.failed);
  const named = coming.some(({ tell }) => tell.some((one) => one.kind === 'person' && one.person === person));
  if (reached.length === 0) return named || !(now >= at && now - at < TELLING_MS);
  return named || reached.some((one) => one.person === person);
}

function keyOf({ id, round }: NoticeView): string {
  return `${id} ${round}`;
}
