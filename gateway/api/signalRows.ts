import { millis, type Span } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Bound } from '../binding/binding.ts';
import type { Intake, IntakeStatus } from '../intake/intake.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { ServerRow, SignalRow } from './schemas.ts';

const words = wordsIn('en');

type Revised = IntakeStatus['revised'] extends ReadonlyMap<number, infer One> ? One : never;

/** Every signal of a line as it reads now, with what its server made of the wish for it. */
export function signalRows(bound: Bound, live: LiveLine, intakes: readonly Intake[]): SignalRow[] {
  const { state } = live.fold();
  const now = live.now();
  const heard = serversHeard(bound, live);
  const statuses = new Map(bound.servers.map((server, place) => [server.id, intakes[place]?.status()]));
  return bound.line.signals
    .filter((signal) => signal.role !== 'entry')
    .map((signal) => {
      const status = statuses.get(signal.server);
      const revised = status?.revised.get(signal.index);
      const at = state.ats[signal.index] ?? -1;
      const known = state.known[signal.index];
      const twin = bound.line.signals.some((one) => one.role === 'stopDeviceCount' && one.of === signal.of);
      return {
        id: signal.id,
        role: signal.role,
        of: signal.of ?? null,
        server: signal.server,
        tag: bound.tags.get(signal.index)?.tag ?? null,
        value: state.values[signal.index] ?? null,
        quality: heard.has(signal.server) ? (qualities[known ?? 0] ?? 'unknown') : 'notHeard',
        ageMs: at < 0 ? null : millis((now - at) as Span),
        samplingMs: revised?.sampling ?? null,
        queue: revised?.queue ?? null,
        twin: signal.role === 'stopDevice' ? twin : null,
        missable: signal.role === 'stopDevice' ? missable(twin, revised) : null,
        trouble: status?.items.get(signal.index)?.trouble ?? null,
      };
    });
}

/**
 * A server that looks only now and then does not see what is shorter, and no overflow tells; one that keeps a single value
 * tells only the newest of those between two publishes. A counted twin tells that there was one.
 */
function missable(twin: boolean, revised: Revised | undefined): string | null {
  const { presses } = words.gateway.api;
  const { sampling, publishing, queue } = revised ?? { sampling: 0, publishing: 0, queue: 0 };
  if (queue === 1 && publishing > sampling) {
    const interval = words.count(publishing);
    return twin ? presses.singleWithTwin(interval) : presses.singleWithoutTwin(interval);
  }
  if (sampling <= 0) return twin ? null : presses.noTwin;
  const interval = words.count(sampling);
  return twin ? presses.shortWithTwin(interval) : presses.shortWithoutTwin(interval);
}

/** How well a value is known, by the fold's number for it. */
const qualities: Readonly<Record<number, SignalRow['quality']>> = { 1: 'good', 2: 'uncertain' };

/**
 * The servers that are heard now, as the tape says: what a dead PLC told last is no value of now. A link that was never
 * heard is null; one that missed nothing since it was lost reads `whole`.
 */
function serversHeard({ line }: Bound, live: LiveLine): ReadonlySet<string> {
  const { values } = live.fold().state;
  const heard = line.signals.filter(
    ({ role, index }) => role === 'link' && (values[index] === true || values[index] === 'whole'),
  );
  return new Set(heard.map(({ server }) => server));
}

/** Every server of a line as it is heard now. */
export function serverRows(bound: Bound, intakes: readonly Intake[]): ServerRow[] {
  return bound.servers.map((server, place) => {
    const status = intakes[place]?.status();
    const trouble = status?.trouble;
    return {
      id: server.id,
      endpoint: status?.endpoint ?? server.endpoint,
      security: server.security,
      up: status?.up ?? false,
      since: status?.since ?? null,
      lastDataAt: status?.lastDataAt ?? null,
      clockOffsetMs: status?.clockOffsetMs ?? null,
      clockSetMs: status?.clockSetMs ?? 0,
      fingerprint: status?.fingerprint ?? null,
      trouble: trouble ? { what: trouble.message, why: trouble.why, mend: trouble.mend } : null,
    };
  });
}
