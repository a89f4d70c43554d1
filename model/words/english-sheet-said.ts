import type { Author } from '../entries/entries.ts';
import type { ChangeoverKind } from '../fold/state.ts';
import type { NumberDoubt } from '../setpoints/doubt.ts';
import type { EndedSheet, NumberStep, SheetStep, SheetView, StepDone, Way } from '../view/sheetView.ts';
import { clock, day } from './clock.ts';
import { capital, locale } from './english-say.ts';
import { number, unitOf } from './english-setpoints-said.ts';
import * as numbers from './format.ts';

type Scaled = Pick<NumberStep, 'decimals'>;

const at = (moment: number, zone: string) => clock(moment, zone, locale);

/** Clock time alone within a day of the screen's own, else with the date. */
export function when(moment: number, now: number, zone: string): string {
  return Math.abs(now - moment) < 64_800_000
    ? at(moment, zone)
    : `${day(moment, zone, locale)} ${at(moment, zone)}`;
}

/** Of what and to what: `Sachet 20 to Sachet 48`. */
export function title({ kind, from, size }: SheetView): string {
  if (kind === 'size') return from === undefined ? `To ${size.name}` : `${from} to ${size.name}`;
  return kind === 'artwork' ? `${size.name}, artwork or blend` : `Start-up, ${size.name}`;
}

export function author(by: Author, position: (id: string) => string): string {
  switch (by.kind) {
    case 'position':
      return `the panel ${position(by.position)}`;
    case 'screen':
      return `a ${by.screen}`;
    case 'person':
      return `number ${by.number}`;
    case 'file':
      return by.file;
    case 'itself':
      return 'Scoreline';
  }
}

export const KINDS: Readonly<Record<ChangeoverKind, string>> = {
  size: 'another size',
  artwork: 'another artwork or blend',
  startUp: 'start-up',
};

export const STEP_DONE = {
  part: { yes: 'fitted', no: 'not fitted' },
  check: { yes: 'well', no: 'not well' },
  approval: { yes: 'approved', no: 'not approved' },
} as const;

/** `up 3.5`, as it stands over the arrow. */
export function by(way: Way, step: Scaled): string {
  return way.by === 0 ? 'stays' : `${way.by > 0 ? 'up' : 'down'} ${number(Math.abs(way.by), step)}`;
}

/** Turns to a quarter, as a hand turns them. */
function turns(n: number): string {
  const text = numbers.decimal(n, n % 0.5 === 0 ? 1 : 2, locale);
  return `${text} ${n === 1 ? 'turn' : 'turns'}`;
}

export function turn({ way }: NumberStep): string | undefined {
  if (way?.turn === undefined) return undefined;
  return `${way.turn.clockwise ? 'Clockwise' : 'Anticlockwise'}, ${turns(way.turn.turns)}`;
}

/** Up or down where nobody has said how its wheel turns. */
export function goes(step: NumberStep): string {
  const { way } = step;
  if (way === undefined)
    return step.book === undefined
      ? 'The book has no number for it.'
      : `Set it to ${number(step.book, step)}${unitOf(step)}`;
  if (way.by === 0) return 'It stands at the book’s number.';
  return `${capital(by(way, step))}${unitOf(step)}`;
}

export function how(step: NumberStep): readonly string[] {
  const { wheel, approach, clamp } = step;
  return [
    ...(clamp ? ['Loosen the clamp first, tighten it after.'] : []),
    ...(wheel
      ? [`${number(wheel.perTurn, { decimals: wheel.perTurn % 1 === 0 ? 0 : 1 })}${unitOf(step)} a turn.`]
      : []),
    ...(approach ? [`Come up to the number from ${approach}, against the play.`] : []),
  ];
}

export const FROM: Readonly<Record<NonNullable<NumberStep['was']>['how'], string>> = {
  sensor: 'by a sensor',
  typed: 'as entered',
  readBack: 'as read back',
  confirmed: 'as book',
};

/** How it is known now where it stands. */
export function known(step: NumberStep, now: number, zone: string, isGone: boolean): string {
  const stands = step.now;
  if (step.sensor === 'silent') return 'Its sensor is silent: read the scale.';
  if (step.sensor === 'unheard') return 'Its sensor was never heard: read the scale.';
  if (stands === undefined) return 'Nobody has said where it stands: read the scale.';
  const value = `${number(stands.value, step)}${unitOf(step)}`;
  const moment = when(stands.at, now, zone);
  switch (stands.how) {
    case 'sensor':
      return isGone
        ? `Its sensor read **${value}** when it was last heard: read the scale.`
        : `Its sensor reads **${value}** now.`;
    case 'uncertain':
      return `Its sensor reads ${value}, and is not sure: read the scale.`;
    case 'typed':
      return `Last entered ${moment}: ${value}. Read the scale.`;
    case 'readBack':
      return `Last read back ${moment}: ${value}. Read the scale.`;
    case 'confirmed':
      return `Confirmed as book ${moment}: ${value}. Nobody has read it since.`;
  }
}

/** A name that stays on one line, where it is short. */
export function unbroken(name: string): string {
  return name.length <= 10 ? name.replaceAll(' ', '\u00a0') : name;
}

/** What was asked about a number that was typed, first as a question. */
export function doubted(doubt: NumberDoubt, typed: number, step: NumberStep): readonly [string, string] {
  const likely = doubt.likely === undefined ? undefined : number(doubt.likely, step);
  const ask = likely === undefined ? 'Is that right?' : `Did you mean ${likely}?`;
  switch (doubt.kind) {
    case 'offScale':
      return [
        likely === undefined ? 'That is not on its scale.' : ask,
        `${plainNumber(typed)} is not on the scale, which goes from ${number(step.min, step)} to ${number(step.max, step)}.`,
      ];
    case 'slip':
      return [
        ask,
        doubt.of === undefined
          ? `${number(typed, step)} is far from the book. It looks like a slip of a digit or the point.`
          : `${number(typed, step)} is the book’s number of ${doubt.of}.`,
      ];
    case 'far':
      return [ask, `${number(typed, step)} is far from the book, and is not where it stood or ran before.`];
    case 'fine':
      return [ask, `${plainNumber(typed)} is finer than the scale is read.`];
  }
}

/** As it was typed: the scale's own decimals would hide what is asked about. */
export function plainNumber(value: number): string {
  return String(value).replace('-', '−');
}

export function said(
  done: StepDone,
  step: SheetStep,
  zone: string,
  position: (id: string) => string,
): string {
  const who = `${at(done.at, zone)}, by ${author(done.author, position)}`;
  const words = done.words === undefined ? '' : `: ${done.words}`;
  if (step.kind === 'number') {
    const value = done.value === undefined ? '' : `**${number(done.value, step)}** `;
    return `${value}${numberSaid(done, step)} ${who}`;
  }
  const told = STEP_DONE[step.kind];
  return `**${capital(done.well ? told.yes : told.no)}** ${who}${words}`;
}

/** How a number came to stand; [SP10] that it was left as it was read, or moved from there. */
function numberSaid({ how, found, value }: StepDone, step: Scaled): string {
  if (how === 'confirmed') return 'as book';
  if (how === 'readBack') return 'read back';
  if (found === undefined) return 'entered';
  return found === value ? 'read, and stays' : `moved, from ${number(found, step)}`;
}

export function ended(
  sheet: EndedSheet,
  zone: string,
  position: (id: string) => string,
): readonly [string, string] {
  const rate = sheet.atRate === undefined ? '' : ` The line was at its rate at ${at(sheet.atRate, zone)}.`;
  switch (sheet.how) {
    case 'done':
      return [
        `${sheet.size.name}: all steps done ${at(sheet.at, zone)}`,
        `The sheet has ended by itself.${rate}`,
      ];
    case 'closed': {
      const by = sheet.author === undefined ? '' : ` by ${author(sheet.author, position)}`;
      return [`${sheet.size.name}: closed ${at(sheet.at, zone)}${by}`, `${capital(sheet.why ?? '')}.${rate}`];
    }
    case 'replaced':
      return [
        `${sheet.size.name}: replaced ${at(sheet.at, zone)}`,
        `${replaced(sheet.by, position)}.${rate}`,
      ];
  }
}

/** [SH10] By whom, and by the sheet of which size. */
function replaced(by: EndedSheet['by'], position: (id: string) => string): string {
  if (by === undefined) return 'Another sheet took its place';
  if (by.author === undefined) return `The PLC told of ${by.size.name}, whose sheet took its place`;
  const kind = by.kind === 'size' ? '' : `, ${KINDS[by.kind]}`;
  return `${capital(author(by.author, position))} began a sheet for ${by.size.name}${kind}, which took its place`;
}
