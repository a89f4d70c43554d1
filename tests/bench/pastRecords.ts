import { LineFold } from '../../model/fold/fold.ts';
import { type LineRecord, recordSteps, type RecordStep } from '../../model/records/records.ts';
import { HOUR, type Instant, type Span } from '../../model/units/units.ts';
import { runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';

const DAY = (24 * HOUR) as Span;
/** Days that are really simulated; more of them are these again, later. */
const SIMULATED = 7;

/** They take longer to simulate than a year of them to write down. */
let simulated: readonly (readonly LineRecord[])[] | undefined;

/** Records of so many days of the simulated line up to a moment, a day at a time, the oldest first. */
export function* daysOfRecords(days: number, until: Instant): Generator<readonly RecordStep[]> {
  simulated ??= simulatedDays();
  for (let day = days; day > 0; day -= 1) {
    const records = simulated[(days - day) % SIMULATED]!;
    const shift = (until - day * DAY - (monday + ((days - day) % SIMULATED) * DAY)) as Span;
    yield records.map((record) => ({ kind: 'put', record: moved(record, shift) }));
  }
}

function simulatedDays(): readonly (readonly LineRecord[])[] {
  const bound = boundLine();
  const machine = startMachine({ seed: 3, start: monday });
  const fold = new LineFold(bound.line);
  return Array.from({ length: SIMULATED }, (_, day) => {
    const facts = runUntil(machine, (monday + (day + 1) * DAY) as Instant);
    takeEntries(machine);
    const events = fold.take(changesOf(bound, facts));
    const steps = structuredClone(recordSteps(events, fold.state));
    // what the last day leaves open would never end
    const ends = day < SIMULATED - 1;
    return steps.flatMap((step) =>
      step.kind === 'put' && (ends || step.record.until !== null || !SPANS.has(step.record.kind))
        ? [step.record]
        : [],
    );
  });
}

const SPANS: ReadonlySet<string> = new Set(['stop', 'press', 'changeover', 'finding']);

/** Names of what is a moment in a record's body. */
const MOMENTS =
  /^(at|begin|end|from|to|until|pressed|released|reset|restarted|firstGood|trialBegan|productionBack|atRate|lastGoodBefore|since)$/;

/** The same record so much later. */
function moved(record: LineRecord, by: Span): LineRecord {
  const later = (value: unknown, name: string): unknown => {
    if (typeof value === 'number') return MOMENTS.test(name) && value > 0 ? value + by : value;
    if (Array.isArray(value)) return name === 'tally' ? value : value.map((one) => later(one, ''));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, later(one, key)]));
  };
  const { at, until, id } = record;
  return {
    ...record,
    at: (at + by) as Instant,
    until: until === null ? null : ((until + by) as Instant),
    id: id === '' ? '' : `${id}-${by}`,
    body: later(record.body, ''),
  } as LineRecord;
}
