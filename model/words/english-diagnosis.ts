import { DIAGNOSIS_MEASURED } from '../diagnosis/measured.ts';
import type {
  CauseAnswer,
  DiagnosisAnswer,
  EvidenceAnswer,
  MoveAnswer,
} from '../diagnosis/diagnosisAnswer.ts';
import type { Strength, Symptom } from '../diagnosis/symptoms.ts';
import { at, capital, count, locale, small } from './english-say.ts';
import { decimal } from './format.ts';

type Adjusted = NonNullable<CauseAnswer['adjustment']>;
type Of<Kind extends EvidenceAnswer['kind']> = Extract<EvidenceAnswer, { kind: Kind }>;

const symptoms: Readonly<Record<Symptom, string>> = {
  'off-score': 'folded off the score line',
  'tuck-out': 'tuck out of position',
  'out-of-square': 'out of square',
  'flap-in-way': 'a flap in the way of loading',
  crushed: 'crushed',
};

const hows: Readonly<Record<CauseAnswer['how']['is'], string>> = {
  misSet: 'set so at the changeover',
  moved: 'moved since',
  loose: 'worked loose',
  knocked: 'knocked in a jam',
  lot: 'came with the lot',
  part: 'came with a part',
  creeping: 'crept up',
  atOnce: 'came at once',
  chance: 'by chance',
  somethingElse: 'something else',
};

/** From here on nobody is sent to read a scale. */
const SURE = 0.9;

/** A chance in words, once; a tenth more or less is not known. */
function odds(chance: number): string {
  if (chance >= 0.9) return 'very likely, about nine times in ten';
  if (chance >= 0.7) return 'likely, about three times in four';
  if (chance >= 0.58) return 'likely, about two times in three';
  if (chance >= 0.42) return 'about even';
  if (chance >= 0.28) return 'possible, about one time in three';
  if (chance >= 0.14) return 'possible, about one time in five';
  if (chance >= 0.06) return 'unlikely, about one time in ten';
  return 'hardly';
}

const named = ({ adjustment, name }: Pick<CauseAnswer, 'adjustment' | 'name'>) =>
  adjustment ? `${adjustment.number} ${name}` : name;
const number = (value: number, { decimals, unit }: Adjusted) => `${decimal(value, decimals, locale)} ${unit}`;

/** Sentences about what may explain a station's trouble. */
export const diagnosisWords = {
  title: 'What explains it',
  symptoms,
  odds,
  /** What is said first, and what to do about it. */
  lead: (answer: DiagnosisAnswer): readonly [string, string] => {
    const [first] = answer.causes;
    const [scale] = answer.readFirst;
    const sure = answer.says === 'cause' && (first?.chance ?? 0) >= SURE;
    const read =
      scale && !sure ? `The scale of ${scale.number} ${scale.name} would tell most: read it first.` : '';
    if (answer.says === 'dontKnow' || !first) return [dontKnowSaid(answer), read];
    return [`${capital(named(first))} explains it best: ${odds(first.chance)}.`, read];
  },
  dontKnow: 'don’t know',
  dontKnowSaid,
  unlikely: (chance: number) => `All others together: ${odds(chance)}.`,
  cause: named,
  /** `too high, worked loose` */
  way: ({ side, how }: Pick<CauseAnswer, 'side' | 'how'>): string =>
    [side === undefined ? '' : side.is === 'high' ? 'too high' : 'too low', hows[how.is]]
      .filter((part) => part !== '')
      .join(', '),
  speaks: { for: 'for it', against: 'against it' },
  evidence: (evidence: EvidenceAnswer, cause: CauseAnswer, zone: string): string => {
    switch (evidence.kind) {
      case 'deviation':
        return deviationSaid(evidence, cause.adjustment!, zone);
      case 'began':
        return beganSaid(evidence, cause, zone);
      case 'reasons':
        return reasonsSaid(evidence);
      case 'symptoms':
        return symptomsSaid(evidence);
      case 'worksLoose':
        return evidence.loose === 'easily' ? 'It works loose easily.' : 'It seldom works loose.';
    }
  },
  move: (move: MoveAnswer, adjustment: Adjusted, zone: string): string =>
    `${moved(move)} ${fromTo(move, adjustment)} at ${at(move.at, zone)}.`,
  trouble: ({ trouble }: DiagnosisAnswer, zone: string): string =>
    `Since ${at(trouble.since, zone)}: ${count(trouble.seen)} rejects and stops in ${count(trouble.cartons)} cartons; ${usual(trouble.usual)} are usual in as many.`,
  ask: 'What do the spoiled cartons look like?',
  /** How far it may be trusted, in two sentences. */
  measured: (): string => {
    const { troubles, first, within3, firstRead, within3Read } = DIAGNOSIS_MEASURED.line3;
    const after = `After the one or two scales it asked for were read: ${firstRead} and ${within3Read}.`;
    return `Held against the truth of ${count(troubles)} simulated troubles of the bundled line, it said the true cause first in ${first} of 100, and among the first three in ${within3}. ${after}`;
  },
  knowledge:
    'By what people wrote of this machine in its file of symptoms (common practice, no source); a reading goes before it.',
} as const;

function dontKnowSaid({ dontKnow, causes }: DiagnosisAnswer): string {
  if (dontKnow.nothing > dontKnow.somethingElse)
    return 'It may be a bad day and nothing more: nobody can tell yet.';
  const likeliest = causes.slice(0, 2).map(named).join(', then ');
  const known = likeliest === '' ? '' : ` The likeliest that is known: ${likeliest}.`;
  return `Nobody can tell what explains it: something else may.${known}`;
}

function deviationSaid(
  { reading, far, sd, best }: Of<'deviation'>,
  adjustment: Adjusted,
  zone: string,
): string {
  const least = 10 ** -adjustment.decimals;
  const off =
    Math.abs(far) < least / 2
      ? 'at its best number'
      : `${number(Math.abs(far), adjustment)} ${far > 0 ? 'above' : 'below'} its best number`;
  const sure = sd >= least / 2 ? `, known to within ${number(2 * sd, adjustment)}` : '';
  const where = `${off} (${number(best, adjustment)}${sure})`;
  const reads = number(reading.value, adjustment);
  switch (reading.known) {
    case 'sensor':
      return `Its sensor reads ${reads}, ${where}.`;
    case 'typed':
      return `At ${at(reading.since, zone)} somebody read ${reads}, ${where}${putSaid(reading, adjustment)}.`;
    case 'confirmed':
      return `At ${at(reading.since, zone)} it was tapped “as book” (${reads}), unread; that would be ${where}.`;
  }
}

/** [SP10] What was done then by whoever read it. */
function putSaid({ value, put }: Of<'deviation'>['reading'], adjustment: Adjusted): string {
  if (put === undefined) return '';
  return put === value ? ', and left it there' : `, and moved it to ${number(put, adjustment)}`;
}

function beganSaid({ speaks, how, at: moment }: Of<'began'>, cause: CauseAnswer, zone: string): string {
  if (speaks === 'against') return againstCourse[how];
  const move = cause.moves.find((one) => moment !== undefined && one.at === moment);
  if (move && cause.adjustment)
    return `${moved(move)} ${fromTo(move, cause.adjustment)} at ${at(move.at, zone)}, before it began.`;
  const came = moment === undefined ? undefined : at(moment, zone);
  switch (how) {
    case 'misSet':
      return 'It was there from the run’s first cartons on.';
    case 'moved':
    case 'atOnce':
      return 'It came at once, in the middle of the run.';
    case 'loose':
    case 'creeping':
      return 'It crept up.';
    case 'knocked':
      return came === undefined ? 'It came after a jam.' : `A jam at ${came} came before it.`;
    case 'lot':
      return came === undefined
        ? 'It came at once, as with a new lot.'
        : `A new lot of board at ${came} came before it.`;
    case 'part':
      return came === undefined
        ? 'It came at once, as with a new part.'
        : `A part put in at ${came} came before it.`;
    case 'chance':
    case 'somethingElse':
      return 'It came as nothing that is known does.';
  }
}

const againstCourse: Readonly<Record<CauseAnswer['how']['is'], string>> = {
  misSet: 'The run’s first cartons were in order.',
  moved: 'It did not come at once.',
  atOnce: 'It did not come at once.',
  loose: 'It did not creep up.',
  creeping: 'It did not creep up.',
  knocked: 'It did not come with a jam.',
  lot: 'It did not come with a lot of board.',
  part: 'It did not come with a part.',
  chance: 'It is more than chance brings.',
  somethingElse: 'It came as what is known does.',
};

const fits = (strength: Strength | undefined) =>
  strength === undefined ? 'not known to bring' : `${strength} brings`;

function reasonsSaid({ reasons, speaks }: Of<'reasons'>): string {
  const [most] = speaks === 'for' ? reasons.filter((one) => one.fits !== undefined) : reasons;
  if (!most) return speaks === 'for' ? 'What came fits it.' : 'What came does not fit it.';
  const counted = `${capital(most.name)} came ${small(most.seen)} ${most.seen === 1 ? 'time' : 'times'}, ${usual(most.usual)} are usual`;
  return `${counted}: this it ${most.fits === undefined ? 'is ' : ''}${fits(most.fits)}.`;
}

function symptomsSaid({ said, speaks }: Of<'symptoms'>): string {
  const [first] = said.toSorted((a, b) => order(a.fits) - order(b.fits)).slice(speaks === 'for' ? 0 : -1);
  if (!first) return '';
  return `Somebody said: ${symptoms[first.symptom]}. This it ${first.fits === undefined ? 'is ' : ''}${fits(first.fits)}.`;
}

const order = (strength: Strength | undefined) =>
  strength === undefined ? 3 : { often: 0, sometimes: 1, seldom: 2 }[strength];

const moved = ({ by }: MoveAnswer) =>
  ({ changeover: 'Set at the changeover', hand: 'Moved', drift: 'Its sensor’s reading crept' })[by];

function fromTo({ from, to }: MoveAnswer, adjustment: Adjusted): string {
  return from === undefined
    ? `to ${number(to, adjustment)}`
    : `from ${number(from, adjustment)} to ${number(to, adjustment)}`;
}

const usual = (n: number) => (n < 10 ? decimal(n, 1, locale) : count(n));
