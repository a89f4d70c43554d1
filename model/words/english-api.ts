/** How a value had to be, by the kind of value that was wanted. */
const kinds: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object with keys of its own',
  array: 'a list',
};

/** How a value is told: by its keys from the outside in; all of it where it has none. */
const named = (place: string) => (place === '' ? 'What was sent' : `“${place}”`);

/** What the interface for programs says: why something sent does not fit, and what its description tells. */
export const apiWords = {
  issue: {
    missing: (place: string) => `${named(place)} is missing.`,
    kind: (place: string, kind: string) =>
      kinds[kind] === undefined
        ? `${named(place)} is not of the kind that it has to be.`
        : `${named(place)} has to be ${kinds[kind]}.`,
    choice: (place: string, choices: readonly string[]) =>
      `${named(place)} has to be ${choices.length === 1 ? choices[0] : `one of: ${choices.join(', ')}`}.`,
    noKind: (place: string) => `${named(place)} is none of those that are known.`,
    unknownKeys: (place: string, keys: readonly string[]) =>
      `${named(place)} has what is not known there: ${keys.join(', ')}.`,
    form: (place: string) => `${named(place)} holds characters that cannot stand there, or is too long.`,
    least: (place: string, least: string) => `${named(place)} may not be below ${least}.`,
    most: (place: string, most: string) => `${named(place)} may not be above ${most}.`,
    lengthLeast: (place: string, least: string) =>
      least === '1' ? `${named(place)} may not be empty.` : `${named(place)} is shorter than ${least}.`,
    lengthMost: (place: string, most: string) => `${named(place)} is longer than ${most}.`,
    other: (place: string) => `${named(place)} does not fit.`,
  },
  badStretch: (most: string) => `“to” may not lie before “from”, nor more than ${most} after it.`,

  compared: {
    from: 'the beginning of the first stretch, in milliseconds since 1970: a shift’s or a run’s',
    to: 'its end, no more than 25 hours after that',
    otherFrom: 'the beginning of the other stretch',
    otherTo: 'its end, no more than 25 hours after that',
    align:
      'what both are laid over one another by: time since each began, time since its first good carton after a changeover, or good cartons made',
    at: 'the moment of the first stretch up to which they are compared; its end unless it is said',
    long: '“to” has to lie after “from”, and “otherTo” after “otherFrom”, by no more than 25 hours each: ask for a part of a longer stretch.',
  },

  /** Which presses of a stop device may come without their moment, or not at all. */
  presses: {
    noTwin: 'It has no counted twin: a press while its server is not heard may be missed.',
    shortWithTwin: (ms: string) =>
      `Its server looks every ${ms} ms: of a shorter press the moment may be missed, and its counted twin tells only that it was.`,
    shortWithoutTwin: (ms: string) =>
      `It has no counted twin, and its server looks only every ${ms} ms: a shorter press may be missed.`,
    singleWithTwin: (ms: string) =>
      `Its server keeps one value between two publishes, ${ms} ms apart: of a shorter press the moment may be missed, and its counted twin tells only that it was.`,
    singleWithoutTwin: (ms: string) =>
      `It has no counted twin, and its server keeps one value between two publishes, ${ms} ms apart: a shorter press may be missed.`,
  },

  request: {
    tooLarge: 'It is larger than anything that can be sent here.',
    noJson: 'It is not JSON.',
    encoding: 'It is packed, or written in characters, in a way that is not read here: send UTF-8.',
    cutShort: 'It ended before all of it had come, or is not as long as it said.',
    badAddress: 'The address has a % that does not stand for a character.',
    other: 'It is not as the interface describes it.',
  },

  describe: {
    title: 'Scoreline',
    about:
      'What cartoning lines do. Nothing here reaches a machine: it reads, and records what people enter.',
    health: 'Whether every line is heard and recorded',
    lines: 'The lines',
    view: 'What the Line screen shows now',
    orders: 'Orders known',
    sheetsAhead:
      'What a changeover sheet would have that is begun now: its steps, and the numbers of each size; for whoever keeps them for a time without a network',
    signals: 'Every signal as it reads now',
    servers: 'Every OPC UA server as it is heard now',
    pastOf: {
      overview: 'What there is of the line’s past, and by what it can be chosen',
      course:
        'A stretch of time as a strip: what was made, and the stops, presses, changeovers, notices and notes in it',
      runs: 'Runs, each of one carton size from one changeover to the next; the newest 60, the oldest of them first',
      compared:
        'Two stretches of time one over the other up to a moment: what was counted in both, and which differences are more than chance; people and positions are never held against one another',
      stops: 'Stops of a stretch of time: what took most, and each of them, the newest first',
      stopsFile: 'All stops of a stretch of time as a file, the oldest first',
      stations: 'Counts and cartons lost by station, of whole shifts',
      station:
        'One station in whole shifts: what came to it, its trend, its stops, and its adjustments as they read now',
      around: 'What the PLC told from 10 s before the beginning of a stop to 10 s after it',
      figures:
        'Key figures of a period, or of what ran in it of one size, order or kind of shift; what each is, `/api/figures` tells',
      figuresFile: 'The same as a file, each figure with its definition',
      attributed:
        'Which stations may have spoiled the rejects of a stretch of time, in shares: an estimate beside the account',
      report:
        'The report of a shift, week, month, order or size: as it is known now and, where it was signed, as it was then',
      sign: 'Signs a report whose time is over; the page is kept as it is now',
      reportFile: 'A report as a file; as it was signed, where it was',
      balance:
        'Blanks picked in a stretch of time, what became of them, and what nothing accounts for; cartons counted and handed over by order',
      safety: 'Stop devices and guards of a stretch of time',
      safetyFile: 'Uses of stop devices and guards of a stretch of time as a file, the oldest first',
      changeovers: 'Changeovers of a stretch of time, one of them opened beside the earlier ones of its pair',
      signals: 'What each signal means on this line',
      entries: 'What people said in a stretch of time, as it was said first and as it was corrected',
      maintenance:
        'Each station’s last 30 days, those outside their own normal first; what was done, and whether it held',
      setPoints:
        'The set-point book of a size, of the one that runs unless another is named: each adjustment’s number, how it stands, and what runs taught of it',
      setPoint:
        'One adjustment of a size: its approvals, its datums, and run by run where it stood and what came of it',
      diagnosis:
        'What may explain the trouble of a station in the run that goes on: adjustments and other causes with their chances, what speaks for and against each, and which scale to read first',
      done: 'What was done in a stretch of time, at one station or at all of them, and whether it held',
      cancel: 'Ends the making of the days before, where that goes on',
    },
    figures: 'What every figure is, how it is made and of what',
    unread: 'Stretches of the tape that cannot be read: their time is unknown',
    changes: 'Changes on the tape by position, at most 10,000',
    tapeOf: {
      stretch:
        'What a program has to know to fold a stretch of the tape by itself: the line’s definition, the pieces that the stretch lies in, and those that came later',
      pieces: 'The pieces that hold a range of positions',
      piece:
        'One piece as it is stored: a zlib stream, of which the tape’s own format is written down beside its code',
      together:
        'The pieces that hold a range of positions, 16 at most, one after another, each led by its length in bytes (32 bits, least first)',
      standIn: 'What is folded in place of a piece that cannot be opened, in the same form',
      state: 'A state of the fold at a position or before it, to go on from',
    },
    entries: 'An entry of a person; answered once it is durable. The same id counts once',
    trouble: 'What was wrong, why, and how to mend it',
  },
} as const;
