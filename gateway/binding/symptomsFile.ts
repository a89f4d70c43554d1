import { z } from 'zod';
import {
  type AdjustmentSigns,
  BEGINS,
  LOOSE,
  type OtherCause,
  type Signs,
  STRENGTHS,
  type SymptomKnowledge,
  SYMPTOMS,
} from '../../model/diagnosis/symptoms.ts';
import type { Line } from '../../model/line/line.ts';
import { assert } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { type Fault, FileError } from './faults.ts';
import { fault, rowsOf, twiceIn, isSection } from './rows.ts';
import type { Kind } from './schema.ts';
import { faultsOf, valueAt } from './shapeFaults.ts';
import { type Path, readSource, type Source } from './source.ts';
import { likely } from './spelling.ts';
import { readText } from './textFile.ts';

const binding = wordsIn('en').gateway.binding;
const words = binding.symptoms;
const kind = (name: Kind) => ({ error: name });

function section<Shape extends z.core.$ZodShape>(shape: Shape) {
  const known = Object.keys(shape).join(' ');
  return z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? known : ('section' satisfies Kind)),
  });
}

const text = z.string(kind('text')).min(1, kind('text')).max(200, kind('text'));
const id = z.string(kind('id')).regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,59}$/, kind('id'));
const strength = z.enum(STRENGTHS, kind('choice'));
const ids = z.array(id, kind('list')).min(1, kind('some'));
const signsShape = {
  symptoms: section(Object.fromEntries(SYMPTOMS.map((symptom) => [symptom, strength.optional()]))).optional(),
  rejects: z.record(id, strength, kind('section')).optional(),
  stops: z.record(z.string().regex(/^\d{1,9}$/, kind('wholeKey')), strength, kind('section')).optional(),
};
const adjustment = section({
  number: z.string(kind('quoted')).regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,19}$/, kind('quoted')),
  stations: ids.optional(),
  loose: z.enum(LOOSE, kind('choice')).optional(),
  shows: z.number(kind('positive')).gt(0, kind('positive')).max(1e6, kind('positive')).optional(),
  tooHigh: section(signsShape),
  tooLow: section(signsShape),
});
const cause = section({
  id,
  name: text,
  stations: ids,
  begins: z.array(z.enum(BEGINS, kind('choice')), kind('list')).min(1, kind('some')),
  ...signsShape,
});
const symptomsFile = section({
  adjustments: z.array(adjustment, kind('list')),
  causes: z.array(cause, kind('list')).optional(),
});

type Written = z.infer<typeof symptomsFile>;
type WrittenSigns = z.infer<z.ZodObject<typeof signsShape>>;
/** What a file of symptoms is checked against. */
export type SymptomsFrame = Pick<Line, 'stations' | 'adjustments' | 'rejects' | 'reasons'>;

/** Where the file of symptoms lies: beside the line file, `line-3.symptoms.yaml` beside `line-3.yaml`. */
export function symptomsPath(lineFile: string): string {
  return `${lineFile.replace(/\.ya?ml$/i, '')}.symptoms.yaml`;
}

/** Reads what people know of a machine. Throws one `LineError` with everything that is wrong in the file. */
export async function readSymptoms(path: string, frame: SymptomsFrame): Promise<SymptomKnowledge> {
  return parseSymptoms(await readText(path), path, frame);
}

/** The same for text at hand; `name` is its path, for messages. */
export function parseSymptoms(written: string, name: string, frame: SymptomsFrame): SymptomKnowledge {
  const source = readSource(written, name);
  if (source.data === undefined) throw new FileError(name, source.faults);
  if (!isSection(source.data)) throw new FileError(name, [{ at: source.place([]), ...words.notSymptoms }]);
  const read = symptomsFile.safeParse(source.data);
  const shape = read.success ? [] : read.error.issues.flatMap((issue) => faultsOf(source, issue));
  const faults = [...source.faults, ...shape, ...namesFaults(source, frame)];
  if (faults.length > 0) throw new FileError(name, faults);
  assert(read.success, 'a file of symptoms was refused without a fault');
  return knowledgeOf(read.data, frame);
}

function knowledgeOf({ adjustments, causes }: Written, frame: SymptomsFrame): SymptomKnowledge {
  return {
    adjustments: adjustments.map((one) => adjustmentOf(one, frame)),
    causes: (causes ?? []).map(
      ({ id, name, stations, begins, ...signs }): OtherCause => ({
        id,
        name,
        stations,
        begins,
        signs: signsOf(signs),
      }),
    ),
  };
}

/** Off by a fiftieth of its scale it shows, where the file does not say. */
const SHOWS_OF_SCALE = 0.02;

function adjustmentOf(one: Written['adjustments'][number], frame: SymptomsFrame): AdjustmentSigns {
  const known = frame.adjustments.find(({ number }) => number === one.number);
  assert(known !== undefined, `symptoms of the adjustment ${one.number}, which passed the checks`);
  return {
    number: one.number,
    stations: one.stations ?? [...new Set([known.station, ...(known.actsOn ?? [])])],
    loose: one.loose ?? 'sometimes',
    shows: one.shows ?? SHOWS_OF_SCALE * (known.max - known.min),
    high: signsOf(one.tooHigh),
    low: signsOf(one.tooLow),
  };
}

function signsOf({ symptoms, rejects, stops }: WrittenSigns): Signs {
  return {
    symptoms: new Map(SYMPTOMS.flatMap((one) => (symptoms?.[one] ? [[one, symptoms[one]] as const] : []))),
    rejects: new Map(Object.entries(rejects ?? {})),
    stops: new Map(Object.entries(stops ?? {}).map(([number, often]) => [Number(number), often])),
  };
}

/** Names that stand twice, and names of what the line has not. */
function namesFaults(source: Source, frame: SymptomsFrame): readonly Fault[] {
  const nouns = binding.nouns;
  const adjustments = rowsOf(source, 'adjustments');
  const causes = rowsOf(source, 'causes');
  const numbers = frame.adjustments.map(({ number }) => number);
  const stations = frame.stations.map(({ id }) => id);
  const signs: readonly Path[] = [
    ...adjustments.flatMap(({ path }) => [
      [...path, 'tooHigh'],
      [...path, 'tooLow'],
    ]),
    ...causes.map(({ path }) => path),
  ];
  return [
    ...twiceIn(source, adjustments, 'number', nouns.adjustment),
    ...twiceIn(source, causes, 'id', words.cause),
    ...adjustments.flatMap(({ path }) => unknown(source, [...path, 'number'], nouns.adjustment, numbers)),
    ...[...adjustments, ...causes].flatMap(({ path, value }) =>
      (Array.isArray(value.stations) ? value.stations : []).flatMap((_, place) =>
        unknown(source, [...path, 'stations', place], nouns.station, stations),
      ),
    ),
    ...signs.flatMap((path) => signFaults(source, path, frame)),
  ];
}

function signFaults(source: Source, path: Path, { rejects, reasons }: SymptomsFrame): readonly Fault[] {
  const keys = (key: string, noun: string, known: readonly string[]) => {
    const section = valueAt(source.data, [...path, key]);
    if (!isSection(section)) return [];
    return Object.keys(section)
      .filter((name) => !known.includes(name))
      .map((name) => ({
        at: source.keyPlace([...path, key, name]),
        ...words.notOfLine(noun, name, likely(name, known), known),
      }));
  };
  return [
    ...keys(
      'rejects',
      binding.nouns.reject,
      rejects.map(({ id }) => id),
    ),
    ...keys(
      'stops',
      binding.nouns.reason,
      reasons.map(({ number }) => String(number)),
    ),
  ];
}

function unknown(source: Source, path: Path, noun: string, known: readonly string[]): readonly Fault[] {
  const name = valueAt(source.data, path);
  if (typeof name !== 'string' || known.includes(name)) return [];
  return [fault(source, path, words.notOfLine(noun, name, likely(name, known), known))];
}
