import type { Plan, Recipient, RecipientSettings } from '../../model/notices/recipients.ts';
import type { Rota } from '../../model/notices/recipientRota.ts';
import { type NoticeSettings, SETTINGS_BOUNDS } from '../../model/notices/settings.ts';
import { words } from '../app/words.ts';

const said = words.screen.noticeWho.troubles;
const { kinds } = words.noticeSaid;
const bounds = SETTINGS_BOUNDS;

/** As it stands on a badge: with a digit in it, and so never a name. */
const NUMBER = /^[\w./-]*\d[\w./-]*$/;
const NUMBER_MOST = 32;
const NAME = /^[A-Za-z0-9][A-Za-z0-9_-]{0,79}$/;
const DATE = /^20\d\d-\d\d-\d\d$/;
const CLOCK = /^([01]\d|2[0-3]):[0-5]\d$/;
const READING = /^20\d\d-\d\d-\d\dT([01]\d|2[0-3]):[0-5]\d$/;

/** What keeps settings from being saved, in words: the gateway would refuse them, and what was typed half is none yet. */
export function troublesOf({ when, who }: NoticeSettings): readonly string[] {
  return [...rulesTroubles(when), ...whoTroubles(who)];
}

const BOUNDS_OF: Readonly<Record<string, { readonly least: number; readonly most: number }>> = {
  ...bounds,
  leastMegabytes: bounds.megabytes,
};

function rulesTroubles(when: NoticeSettings['when']): readonly string[] {
  const { returnedHours, levels: _, ...rules } = when;
  const named = Object.entries(rules) as [keyof typeof kinds, object][];
  const within = Object.entries(when.stopsCounted.within);
  return [
    ...named.filter(([, rule]) => !allWithin(Object.entries(rule))).map(([kind]) => said.rule(kinds[kind])),
    ...(allWithin(within) ? [] : [said.rule(kinds.stopsCounted)]),
    ...(isWithin(returnedHours, bounds.hours) ? [] : [said.hours]),
  ];
}

function allWithin(fields: readonly [string, unknown][]): boolean {
  return fields.every(([name, value]) => typeof value !== 'number' || isWithin(value, BOUNDS_OF[name], name));
}

const WHOLE = new Set(['stops', 'cartons', 'notices']);

function isWithin(
  value: number,
  { least, most }: { readonly least: number; readonly most: number } = { least: 0, most: Infinity },
  name = '',
): boolean {
  return value >= least && value <= most && (!WHOLE.has(name) || Number.isInteger(value));
}

function whoTroubles({ recipients, rotas, plans }: RecipientSettings): readonly string[] {
  const people = recipients.map(({ person }) => person);
  const names = rotas.map(({ id }) => id);
  return [
    ...recipients.flatMap((one) => personTroubles(one)),
    ...twice(people).map(said.twice),
    ...rotas.flatMap((rota) => rotaTroubles(rota, people)),
    ...twice(names).map(said.rotaTwice),
    ...plans.flatMap((plan, place) => planTroubles(plan, place + 1, people, names)),
  ];
}

function personTroubles({ person, ways, when, falseOnceInShifts, stations }: Recipient): readonly string[] {
  const { quiet, shifts } = when;
  const budget = falseOnceInShifts ?? bounds.falseOnceInShifts.least;
  return [
    ...(NUMBER.test(person) && person.length <= NUMBER_MOST ? [] : [said.number(person)]),
    ...(ways.length > 0 ? [] : [said.noWay(person)]),
    ...(isWithin(budget, bounds.falseOnceInShifts) ? [] : [said.budget(person)]),
    ...(stations?.length === 0 ? [said.noStation(person)] : []),
    ...(shifts?.length === 0 ? [said.noShift(person)] : []),
    ...(quiet.every(({ from, to, days }) => CLOCK.test(from) && CLOCK.test(to) && days?.length !== 0)
      ? []
      : [said.quiet(person)]),
  ];
}

function rotaTroubles(rota: Rota, people: readonly string[]): readonly string[] {
  const { id, first, clock, days, turns, substitutes } = rota;
  const strangers = [...turns, ...substitutes.flatMap(({ of, by }) => [of, by])].filter(
    (one) => !people.includes(one),
  );
  return [
    ...(NAME.test(id) ? [] : [said.rotaName(id)]),
    ...(DATE.test(first) && CLOCK.test(clock) ? [] : [said.rotaFirst(id)]),
    ...(Number.isInteger(days) && isWithin(days, DAYS_OF_TURN) ? [] : [said.rotaDays(id)]),
    ...(turns.length > 0 ? [] : [said.noTurns(id)]),
    ...new Set(strangers.map((one) => said.stranger(id, one))),
    ...(substitutes.every(({ from, to }) => READING.test(from) && READING.test(to) && from < to)
      ? []
      : [said.substitute(id)]),
  ];
}

/** Of a turn, and of a step: as the gateway reads them. */
export const DAYS_OF_TURN = { least: 1, most: 28 } as const;
export const STEP_MINUTES = { least: 0, most: 1440 } as const;

function planTroubles(
  { steps, stations, levels }: Plan,
  place: number,
  people: readonly string[],
  rotas: readonly string[],
): readonly string[] {
  const targets = steps.flatMap(({ tell }) => tell);
  const isKnown = targets.every((one) =>
    one.kind === 'person' ? people.includes(one.person) : rotas.includes(one.rota),
  );
  const minutesFit = steps.every(
    ({ afterMinutes }) => Number.isInteger(afterMinutes) && isWithin(afterMinutes, STEP_MINUTES),
  );
  return [
    ...(steps.length > 0 ? [] : [said.noSteps(place)]),
    ...(steps.every(({ tell }) => tell.length > 0) ? [] : [said.noTargets(place)]),
    ...(isKnown ? [] : [said.planStranger(place)]),
    ...(minutesFit ? [] : [said.planMinutes(place)]),
    ...(stations?.length === 0 || levels?.length === 0 ? [said.planOfNothing(place)] : []),
  ];
}

function twice(names: readonly string[]): readonly string[] {
  return [...new Set(names.filter((name, place) => names.indexOf(name) !== place))];
}
