import { kindWords, syntaxWhy } from './english-kinds.ts';
import { orderWords } from './english-orders.ts';
import { count } from './english-say.ts';

/** The name that was probably meant, or the names there are. */
const choose = (likely: string | undefined, known: readonly string[]) => {
  if (likely !== undefined) return `Did you mean “${likely}”?`;
  if (known.length === 0) return 'Take it out.';
  const told = known.slice(0, 12).join(', ');
  return `Write one of: ${told}${known.length > 12 ? ' …' : ''}.`;
};

/** Troubles of the line file and of the list of orders. */
export const bindingWords = {
  kinds: kindWords,
  faults: (file: string, n: number) =>
    `${file} cannot be used: ${n === 1 ? 'one thing in it is wrong' : `${count(n)} things in it are wrong`}.`,
  more: (n: number) => `And ${count(n)} more.`,
  mendAll: 'Mend what is named, save the file, and try again.',
  unreadable: (file: string) => ({
    what: `The file ${file} cannot be read.`,
    mend: 'Check the path, and that this user may read it.',
  }),
  notThere: 'There is no such file.',
  notAllowed: 'This user may not read it.',
  notAFile: 'It is not a file.',
  noText: {
    why: 'It is not text, or text that is not saved as UTF-8.',
    mend: 'Check that this is the file you meant, and save it as UTF-8.',
  },

  tooLarge: (most: number) => ({
    what: 'The file is too large.',
    why: `No more than ${count(most)} characters are read.`,
    mend: 'Check that this is the file you meant.',
  }),
  tooDeep: {
    what: 'The file is nested too deeply, or holds far too many values.',
    why: 'No line needs so many.',
    mend: 'Check that this is the file you meant.',
  },
  syntax: (code: string) => ({
    what: 'This is not YAML.',
    why: syntaxWhy[code] ?? 'What stands here does not fit what stands before it.',
    mend: 'Correct this place or the line above it.',
  }),
  alias: (name: string) => ({
    what: `The alias “*${name}” stands for nothing.`,
    why: `No “&${name}” stands above it.`,
    mend: 'Write the value out.',
  }),
  oddKey: {
    what: 'This key cannot be used.',
    why: 'A key is a word or a number.',
    mend: 'Correct it, or take it out.',
  },
  keyTwice: (key: string) => ({
    what: `“${key}” stands twice here.`,
    why: 'Only one of the two could hold.',
    mend: 'Take one of them out.',
  }),
  empty: {
    what: 'The file is empty.',
    why: 'Nothing in it describes a line.',
    mend: 'Start from a copy of simulator/lines/line-3.yaml.',
  },
  notALine: {
    what: 'This does not describe a line.',
    why: 'A line file has sections of their own names, such as line: and signals:.',
    mend: 'Check that this is the file you meant; start from a copy of simulator/lines/line-3.yaml.',
  },
  unknownKey: (key: string, likely: string | undefined, known: readonly string[]) => ({
    what: `“${key}” is not known here.`,
    why: 'A key that is not understood would be left out in silence.',
    mend: choose(likely, known),
  }),
  missing: (key: string, where: string) => ({
    what: where === '' ? `“${key}” is missing.` : `“${key}” of ${where} is missing.`,
    why: 'It is needed.',
    mend: 'Add it.',
  }),
  noValue: (key: string) => ({
    what: `“${key}” has no value.`,
    why: 'Nothing stands behind it.',
    mend: 'Write a value, or take the key out.',
  }),
  badValue: (key: string, shown: string, kind: keyof typeof kindWords) => ({
    what: shown === '' ? `“${key}” cannot be used.` : `“${shown}” cannot be used as ${key}.`,
    ...kindWords[kind],
  }),
  badChoice: (key: string, shown: string, likely: string | undefined, choices: readonly string[]) => ({
    what: shown === '' ? `“${key}” cannot be used.` : `“${shown}” cannot be used as ${key}.`,
    why: kindWords.choice.why,
    mend: choose(likely, choices),
  }),
  item: (list: string, place: number) => `item ${place} of ${list}`,
  entry: (map: string, key: string) => `${key} of ${map}`,

  nouns: {
    machine: 'machine',
    server: 'server',
    station: 'station',
    size: 'size',
    position: 'loading position',
    reject: 'reject reason',
    device: 'stop device',
    guard: 'guard',
    adjustment: 'adjustment',
    condition: 'condition',
    shift: 'shift',
    answer: 'answer',
    pause: 'pause',
    reason: 'stop reason',
    crew: 'crew',
    order: 'order',
    code: 'size code',
    step: 'changeover step',
  },
  unknownName: (noun: string, name: string, likely: string | undefined, known: readonly string[]) => ({
    what: `There is no ${noun} “${name}”.`,
    why: `This file names no ${noun} like it.`,
    mend: choose(likely, known),
  }),
  twice: (noun: string, name: string, firstLine: number) => ({
    what: `The ${noun} “${name}” stands twice.`,
    why: `It stands in line ${firstLine} already.`,
    mend: 'Give one of them another name, or take it out.',
  }),
  badZone: (zone: string, likely: string | undefined) => ({
    what: `“${zone}” is no time zone.`,
    why: 'Shifts follow the summer time of a zone in the IANA list.',
    mend: likely === undefined ? 'Write it as in Europe/Berlin.' : `Did you mean “${likely}”?`,
  }),
  pocketsGrow: (station: string, before: string) => ({
    what: `“${station}” has more pockets to discharge than “${before}”.`,
    why: 'Stations stand in process order, and the distance to the discharge check only shrinks.',
    mend: 'Correct the pockets, or the order of the stations.',
  }),
  pocketsLast: (station: string) => ({
    what: `The last station, “${station}”, has to have 0 pockets.`,
    why: 'Distances are counted to the discharge check, and the last station holds it.',
    mend: 'Write pockets: 0, or add the discharge station.',
  }),
  badDrawing: (drawing: string, likely: string | undefined, known: readonly string[]) => ({
    what: `There is no drawing “${drawing}”.`,
    why: 'Only the bundled drawings can be shown.',
    mend: choose(likely, known),
  }),
  crewUnlisted: (people: number) => ({
    what: `A crew of ${people} is assumed but not among the crews.`,
    why: 'The crew can only be one that can be chosen.',
    mend: 'Add it to crews, or change crew.',
  }),
  noTarget: (size: string) => ({
    what: `The size “${size}” has no target.`,
    why: 'Without one there is no plan and nothing to lose against.',
    mend: 'Write a target for at least one crew, as in { 2: 52 }.',
  }),
  targetAboveRate: (target: number, most: number) => ({
    what: `A target of ${target} is above rateMax, ${most}.`,
    why: 'A counter faster than rateMax is taken for a reset.',
    mend: 'Raise rateMax in settings, or lower the target.',
  }),
  emptyRange: {
    what: 'The range is empty.',
    why: 'Its first number has to be below its second.',
    mend: 'Correct the two numbers.',
  },
  bookOutside: (value: number, low: number, high: number) => ({
    what: `The set point ${value} lies outside the scale.`,
    why: `The scale goes from ${low} to ${high}.`,
    mend: 'Correct the set point or the range.',
  }),
  circuitNeedsCandidates: (device: string) => ({
    what: `The circuit “${device}” needs at least two candidates.`,
    why: 'A circuit is several buttons behind one bit; which one was pressed is asked.',
    mend: 'List the places of its buttons as candidates.',
  }),
  buttonHasCandidates: (device: string) => ({
    what: `The button “${device}” has candidates.`,
    why: 'A button of its own is known without asking.',
    mend: 'Write kind: circuit, or take the candidates out.',
  }),
  guardBackwards: (guard: string) => ({
    what: `The guard “${guard}” ends before it begins.`,
    why: '“from” and “to” follow the order of the stations.',
    mend: 'Swap them.',
  }),
  noExecute: {
    what: 'No number means Execute.',
    why: 'Without it the machine would never produce.',
    mend: 'Add the number of Execute.',
  },
  noProduce: {
    what: 'No number means produce.',
    why: 'In no other mode are cartons production.',
    mend: 'Add the number of produce.',
  },
  staleAfterLost: {
    what: '“lost” is not longer than “stale”.',
    why: 'Data is stale first and lost later.',
    mend: 'Make lost longer, or stale shorter.',
  },
  shiftsOverlap: (shift: string, other: string) => ({
    what: `The shifts “${shift}” and “${other}” overlap.`,
    why: 'A carton belongs to one shift.',
    mend: 'Correct their times or their days.',
  }),
  dayTwice: (day: number) => ({
    what: `Day ${day} stands twice.`,
    why: 'A shift begins once a day.',
    mend: 'Take one of them out.',
  }),
  pauseOutside: (pause: string, shift: string) => ({
    what: `The window of the pause “${pause}” is not inside the shift “${shift}”.`,
    why: 'A pause is taken in its own shift.',
    mend: 'Correct its from and to, or its shift.',
  }),
  pauseTooLong: (pause: string) => ({
    what: `The pause “${pause}” is allowed longer than its window.`,
    why: 'It has to fit between its from and to.',
    mend: 'Shorten the allowance, or widen the window.',
  }),

  ofNeeded: (role: string, noun: string, known: readonly string[]) => ({
    what: `The signal ${role} does not say which ${noun} it belongs to.`,
    why: `There is one for each ${noun}.`,
    mend:
      known.length === 0
        ? `Describe the ${noun} first.`
        : `Add of: with one of: ${known.slice(0, 12).join(', ')}.`,
  }),
  ofUnwanted: (role: string) => ({
    what: `The signal ${role} belongs to nothing.`,
    why: 'It is one for the whole machine.',
    mend: 'Take of out, or correct the role.',
  }),
  widthNeeded: (role: string) => ({
    what: `The counter ${role} has no width.`,
    why: 'Without it a rollover looks like a reset, and cartons are lost from the count.',
    mend: 'Add width: 16 for UInt16, 32 for UInt32, 31 for Int32.',
  }),
  widthUnwanted: (role: string) => ({
    what: `The signal ${role} has a width.`,
    why: 'Only counters roll over.',
    mend: 'Take width out.',
  }),
  activeWhenUnwanted: (role: string) => ({
    what: `The signal ${role} has activeWhen.`,
    why: 'Only a true-or-false signal can be read the other way round.',
    mend: 'Take activeWhen out.',
  }),
  serverNeeded: (known: readonly string[]) => ({
    what: 'This signal does not say which server it comes from.',
    why: 'There are several.',
    mend: `Add server: with one of: ${known.join(', ')}.`,
  }),
  tagTwice: (tag: string, firstLine: number) => ({
    what: `The tag “${tag}” is bound twice.`,
    why: `Line ${firstLine} binds it already, and one tag means one thing.`,
    mend: 'Correct one of the two.',
  }),
  signalTwice: (id: string, firstLine: number) => ({
    what: `The signal “${id}” is bound twice.`,
    why: `Line ${firstLine} binds it already.`,
    mend: 'Take one of them out, or correct its role, its of or its machine.',
  }),
  badNode: (tag: string) => ({
    what: `“${tag}” is no node id.`,
    why: 'A full node id names a namespace, a kind (i, s, g or b) and an identifier.',
    mend: 'Write it as in ns=3;s=Cartoner.State, or write only the identifier.',
  }),
  namespaceNeeded: (server: string) => ({
    what: `The server “${server}” has no namespace.`,
    why: 'Tags without a full node id are looked up in it.',
    mend: 'Add namespace: with the namespace’s URI.',
  }),
  unboundMachine: (machine: string) => ({
    what: `Nothing tells whether the machine “${machine}” runs.`,
    why: 'It sets the pace, and has neither a state nor a cycleCount signal.',
    mend: 'Bind one of them.',
  }),
  noGoodCount: {
    what: 'No signal counts good cartons.',
    why: 'Everything is counted against them.',
    mend: 'Bind a goodCount signal.',
  },
  mapNeeded: (role: string, machine: string, key: string) => ({
    what: `The signal ${role} of “${machine}” cannot be understood.`,
    why: `The machine has no ${key} to tell what its numbers mean.`,
    mend: `Add ${key} to the machine.`,
  }),
  deviceUnbound: (noun: string, name: string) => ({
    what: `No signal reads the ${noun} “${name}”.`,
    why: 'It would look watched, and is not.',
    mend: `Bind a signal to it, or take the ${noun} out.`,
  }),

  orders: orderWords,
  /** Troubles of the file of symptoms, beside those above. */
  symptoms: {
    cause: 'cause',
    notSymptoms: {
      what: 'This does not describe symptoms.',
      why: 'A file of symptoms has the sections adjustments: and causes:.',
      mend: 'Check that this is the file you meant; start from a copy of simulator/lines/line-3.symptoms.yaml.',
    },
    notOfLine: (noun: string, name: string, likely: string | undefined, known: readonly string[]) => ({
      what: `There is no ${noun} “${name}”.`,
      why: `The line file names no ${noun} like it.`,
      mend: choose(likely, known),
    }),
  },
} as const;
