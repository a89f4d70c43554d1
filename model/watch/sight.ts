import { type Condition, kindOfKey, noticeKey } from '../notices/condition.ts';
import { after, between, epochMs, type Instant, millis, type Span, TICKS_PER_MS } from '../units/units.ts';
import type { Watched } from './watched.ts';

const MEGABYTE = 1_000_000;
/** A clock or a disk that is told goes on to be told until it is better by this share. */
const CLEARLY = 0.8;

/** Whether the line is seen, and what of is kept: servers, time that nobody saw, the disk, clocks. */
export function sightConditions(watched: Watched): readonly Condition[] {
  return [...servers(watched), ...unseen(watched), ...disk(watched), ...clocks(watched)];
}

/** A server that was heard and is not; after a start also one that was heard before it, once it had time to be heard again. */
function servers({ seen, outside, wall, begun, rules, holding }: Watched): readonly Condition[] {
  if (!rules.server.on) return [];
  const most = rules.server.seconds * 1000;
  return outside.servers.flatMap(({ id, up, since }): readonly Condition[] => {
    const key = noticeKey('server', id);
    const at =
      since === undefined ? seen.state.heardAt : ((seen.now - (wall - since) * TICKS_PER_MS) as Instant);
    const gone = since === undefined ? Math.min(wall - begun, millis(between(at, seen.now))) : wall - since;
    // a clock that was put back, or a start, makes no server heard that is not
    if (up || (gone < most && !holding.has(key))) return [];
    const facts = { kind: 'server', server: id, since: epochMs(at) } as const;
    return [{ key, level: rules.levels.server, facts, since: at, look: [] }];
  });
}

/** The servers answer, and yet nobody can tell what the line does or makes. */
function unseen({ seen, rules, wall, begun, holding }: Watched): readonly Condition[] {
  const { gap, heardAt } = seen.state;
  const since = gap?.from ?? (seen.sight === 'lost' ? heardAt : undefined);
  if (!rules.unseen.on || since === undefined) return [];
  const key = noticeKey('unseen');
  // after a start nobody has looked for longer than since then
  const unseenMs = Math.min(wall - begun, millis(between(since, seen.now)));
  if (unseenMs < rules.unseen.minutes * 60_000 && !holding.has(key)) return [];
  const facts = { kind: 'unseen', since: epochMs(since) } as const;
  return [{ key, level: rules.levels.unseen, facts, since, look: [] }];
}

/** [NL8] What cannot be told now stays as it was: a disk that does not answer, the clock of a server that is not heard. */
export function isSightUndecided({ outside, disk: has }: Watched, key: string): boolean {
  const kind = kindOfKey(key);
  if (kind === 'disk') return has === undefined;
  if (kind !== 'clock') return false;
  const server = outside.servers.find(({ id }) => noticeKey('clock', id) === key);
  return server !== undefined && (!server.up || server.clockOffset === undefined);
}

function disk({ seen, disk: has, rules, holding }: Watched): readonly Condition[] {
  const key = noticeKey('disk');
  const leastBytes = rules.disk.leastMegabytes * MEGABYTE;
  if (!rules.disk.on || !has || has.freeBytes >= leastBytes / (holding.has(key) ? CLEARLY : 1)) return [];
  const facts = { kind: 'disk', freeBytes: has.freeBytes, leastBytes } as const;
  return [{ key, level: rules.levels.disk, facts, since: seen.now, look: [] }];
}

function clocks({ seen, outside, rules, holding }: Watched): readonly Condition[] {
  if (!rules.clock.on) return [];
  const most = rules.clock.seconds * 1000;
  return outside.servers.flatMap(({ id, up, clockOffset }): readonly Condition[] => {
    const key = noticeKey('clock', id);
    if (!up || clockOffset === undefined) return [];
    if (Math.abs(clockOffset) <= most * (holding.has(key) ? CLEARLY : 1)) return [];
    const facts = {
      kind: 'clock',
      server: id,
      offset: clockOffset,
      most: most as typeof clockOffset,
    } as const;
    return [{ key, level: rules.levels.clock, facts, since: after(seen.now, 0 as Span), look: [] }];
  });
}
