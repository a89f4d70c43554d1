import type { Instant } from '../../model/units/units.ts';
import { changedSubject, fittedSubject } from '../../model/records/subjects.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';

/** [SP4] Something that people named, from a moment on. `step`: which part; undefined for a lot and for the whole set. */
export interface FittedSaid {
  readonly at: Instant;
  readonly name: string;
  readonly step: string | undefined;
}

/** Lots of board as people entered them, by themselves or as a change that was made: the newest so many, oldest first. */
export function lotsSaid(
  records: RecordsRead,
  { line }: Pick<LineRead, 'line'>,
  before: Instant,
  most: number,
): readonly FittedSaid[] {
  const newestOf = (subject: string) =>
    records.newestOf({ line: line.id, kind: 'entry', subject }, before, most);
  return [fittedSubject('lot'), ...line.stations.map(({ id }) => changedSubject(id))]
    .flatMap(newestOf)
    .flatMap(({ at, entry }): readonly FittedSaid[] => {
      if (entry.kind === 'fitted') return [{ at, name: entry.name, step: undefined }];
      return entry.kind === 'changed' && entry.changed.of === 'lot'
        ? [{ at, name: entry.changed.name, step: undefined }]
        : [];
    })
    .sort((a, b) => a.at - b.at);
}

/** Change parts as people entered them: the newest so many, oldest first. */
export function partsSaid(
  records: RecordsRead,
  { line }: Pick<LineRead, 'line'>,
  before: Instant,
  most: number,
): readonly FittedSaid[] {
  return records
    .newestOf({ line: line.id, kind: 'entry', subject: fittedSubject('parts') }, before, most)
    .flatMap(({ at, entry }) =>
      entry.kind === 'fitted' ? [{ at, name: entry.name, step: entry.step }] : [],
    );
}

/** All parts that were fitted at a moment, in the order of the line's file: one name for what a run ran with. */
export function partsAt(
  { changeoverSteps }: LineRead['line'],
  parts: readonly FittedSaid[],
  before: Instant,
): string | undefined {
  const newest = (step: string | undefined) => parts.findLast((one) => one.step === step && one.at < before);
  const whole = newest(undefined);
  const each = changeoverSteps.flatMap(({ id, name }) => {
    const part = newest(id);
    // a whole set that is fitted takes the place of the parts before it
    return part && part.at > (whole?.at ?? 0) ? [`${name} ${part.name}`] : [];
  });
  const all = [...(whole ? [whole.name] : []), ...each];
  return all.length === 0 ? undefined : all.join(', ');
}
