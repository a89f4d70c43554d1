import type { Unreached } from '../notices/reach.ts';
import { clock, day } from './clock.ts';
import { count, locale, many } from './english-say.ts';

const shown = (name: string) => (name.trim() === '' ? 'The person without a number' : `Number ${name}`);
const rota = (name: string) => (name.trim() === '' ? 'The rota without a name' : `The rota ${name}`);

/** Who is told of notices, in which order and by which ways, on the page of their settings. */
export const noticeWhoWords = {
  people: {
    title: 'Who is told',
    about:
      'Numbers of people; names and addresses stand elsewhere. Who hears too many false notices stops listening, so everybody can have a budget of their own.',
    none: 'Nobody is named. Open pages show every notice, and sound where they are set to.',
    add: 'Another person',
    remove: (person: string) => `Take ${person === '' ? 'this one' : `number ${person}`} out`,
    number: 'number',
    ways: 'Told by',
    way: (way: string) =>
      way === 'page'
        ? 'an open page with sound'
        : way === 'mail'
          ? 'mail'
          : way === 'push'
            ? 'push'
            : `webhook ${way}`,
    gone: (way: string) => `${way} (there is no such way now)`,
    unwired: 'Only an open page needs nothing else.',
    unreached: {
      accessEnded: 'access has ended, so nothing is told',
      noWay: 'no way leads to them',
      pageClosed: 'only an open page would, and none is open with sound',
    } satisfies Record<Unreached, string>,
    /** Behind a number, where people are chosen. */
    unreachedShort: {
      accessEnded: 'access ended',
      noWay: 'no way',
      pageClosed: 'no page open',
    } satisfies Record<Unreached, string>,
    unreachedSaid: (why: string) =>
      `Would not be reached now: ${why}. The next step of a plan is told in their place.`,
    marked: (person: string, why: string) => `${person} (${why})`,
    own: 'A budget of their own: one false notice in so many shifts, all their stations together',
    stations: 'Only these stations',
    shifts: 'Only in these shifts',
    quiet: 'Quiet hours: nothing comes but what is urgent',
    addQuiet: 'Quiet hours',
    from: 'from',
    to: 'to',
    days: 'Beginning on',
    everyDay: 'every day',
    removeQuiet: 'Take these hours out',
    weekdays: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
    more: 'Budget, stations, hours',
    moreOf: (parts: readonly string[]) => (parts.length === 0 ? 'everything, at any hour' : parts.join('; ')),
    budgetIn: (n: number) => `one false in ${count(n)} ${many(n, 'shift', 'shifts')}`,
    stationsIn: (n: number) => `${count(n)} ${many(n, 'station', 'stations')}`,
    shiftsIn: (names: readonly string[]) => `in ${names.join(', ')}`,
    quietIn: (from: string, to: string) => `quiet ${from} to ${to}`,
  },
  rotas: {
    title: 'On call, in turns',
    about: 'Whoever’s turn it is has a call at any hour. Quiet hours of their own hold back notes only.',
    add: 'Another rota',
    remove: (id: string) => `Take the rota ${id} out`,
    id: 'name of the rota',
    first: 'first hand-over on',
    clock: 'at',
    days: 'a turn lasts, days',
    turns: 'Turns, one after another',
    addTurn: 'Another turn',
    removeTurn: (person: string, place: number) => `Take turn ${count(place)}, number ${person}, out`,
    turn: (place: number) => `Turn ${count(place)}`,
    noPeople: 'Name people first: turns are of people who are told.',
    substitutes: 'Stands in',
    addSubstitute: 'Somebody stands in',
    removeSubstitute: 'Take this out',
    of: 'for number',
    by: 'number',
    from: 'from',
    to: 'to',
  },
  plans: {
    title: 'Who first, and who after that',
    about:
      'The first plan that fits a notice counts; where none fits, everybody is told at once. A step is told as long as nobody has taken the notice.',
    add: 'Another plan',
    remove: (place: number) => `Take plan ${count(place)} out`,
    plan: (place: number) => `Plan ${count(place)}`,
    levels: 'Only for these levels',
    stations: 'Only for these stations',
    after: 'After',
    min: 'min',
    tell: 'tell',
    addStep: 'Another step',
    removeStep: 'Take this step out',
    person: (person: string) => `number ${person}`,
    rota: (id: string) => `whoever is on call (${id})`,
    minutes: 'minutes',
  },
  troubles: {
    rule: (rule: string) => `A number of “${rule}” is missing or out of its bounds.`,
    hours: 'The hours after which what nobody took ends are missing or out of their bounds.',
    number: (person: string) => `${shown(person)}: a number has a digit in it, and no spaces.`,
    noWay: (person: string) => `${shown(person)} is told by no way.`,
    budget: (person: string) => `${shown(person)}: the budget is missing or out of its bounds.`,
    noStation: (person: string) => `${shown(person)}: no station is chosen.`,
    noShift: (person: string) => `${shown(person)}: no shift is chosen.`,
    quiet: (person: string) => `${shown(person)}: quiet hours lack a time or a day.`,
    twice: (person: string) => `${shown(person)} is there twice.`,
    rotaName: (id: string) => `${rota(id)}: a name has letters, digits, - and _ only.`,
    rotaFirst: (id: string) => `${rota(id)}: the first hand-over lacks its day or its time.`,
    rotaDays: (id: string) => `${rota(id)}: a turn lasts 1 to 28 whole days.`,
    noTurns: (id: string) => `${rota(id)} has no turns.`,
    stranger: (id: string, person: string) =>
      person === ''
        ? `${rota(id)} lacks somebody.`
        : `${rota(id)}: number ${person} is not among who is told.`,
    substitute: (id: string) => `${rota(id)}: who stands in does so from one moment to a later one.`,
    rotaTwice: (id: string) => `${rota(id)} is there twice.`,
    noSteps: (place: number) => `Plan ${count(place)} has no steps.`,
    noTargets: (place: number) => `Plan ${count(place)}: a step tells nobody.`,
    planStranger: (place: number) => `Plan ${count(place)} names somebody, or a rota, that is not there.`,
    planMinutes: (place: number) => `Plan ${count(place)}: a step comes after 0 to 1,440 whole minutes.`,
    planOfNothing: (place: number) => `Plan ${count(place)}: no level or no station is chosen.`,
  },
  ways: {
    title: 'Ways there are',
    about: 'Ways are set in the file of ways, where the gateway runs.',
    none: 'There is no file of ways: only open pages tell. One that is put there (ways.yaml in the data folder) is read within seconds.',
    page: 'An open page with sound. It needs one touch on the page; nothing else.',
    mail: (host: string, port: number, people: number) =>
      `Mail by ${host}, port ${port}; addresses of ${count(people)} ${many(people, 'person', 'people')} are kept.`,
    security: { tls: 'Encrypted.', startTls: 'Encrypted once connected.', none: 'Not encrypted.' },
    webhook: (id: string, origin: string) => `Webhook ${id}, to ${origin}.`,
    push: 'Push, for whoever turned it on in a browser. It needs the internet, here and on the phone.',
    faults: 'What is wrong in the file of ways',
    faultAt: (line: number, column: number) => `Line ${count(line)}, place ${count(column)} of ways.yaml.`,
    noMail: 'No mail.',
    noWebhook: 'No webhook.',
    noPush: 'No push.',
  },
  trial: {
    button: (way: string) => `Try ${way}`,
    buttonOf: (way: string, person: string) => `Try ${way} for number ${person}`,
    onItsWay: 'on its way …',
    became: (way: string, became: string) => `Trial by ${way}: ${became}`,
  },
  arrived: {
    title: 'What did not arrive',
    none: 'Nothing was given up.',
    columns: ['raised', 'what', 'to', 'why'],
    raised: (at: number, zone: string) => `${day(at, zone, locale)} ${clock(at, zone, locale)}`,
    to: (person: string, way: string) => `number ${person} by ${way}`,
    tries: (n: number) => `${count(n)} ${many(n, 'try', 'tries')}`,
    unknown: 'Why is not known.',
    again: 'Try again',
    onItsWay: 'It is tried again.',
    waiting: (n: number) => (n === 0 ? '' : `${count(n)} ${many(n, 'is', 'are')} on the way.`),
    noAnswer: 'The gateway does not answer. Nothing was tried.',
    takenBack: {
      title: 'What was taken back before it went out',
      about: (n: number) =>
        n === 1
          ? 'The newest one. Nothing has to be done.'
          : `The newest ${count(n)}. Nothing has to be done.`,
    },
  },
} as const;
