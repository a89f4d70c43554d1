const correct = 'Correct it.';

/** What is wrong with the YAML itself, by the parser's code. */
export const syntaxWhy: Readonly<Record<string, string>> = {
  BAD_INDENT: 'The indentation does not fit what stands above it.',
  TAB_AS_INDENT: 'YAML is indented with spaces, never with tabs.',
  MISSING_CHAR: 'A bracket, a quote, a comma or a colon is missing.',
  BAD_SCALAR_START: 'A plain text cannot begin with this character.',
  BAD_DQ_ESCAPE: 'A backslash in double quotes begins an escape, and this is none.',
  MULTIPLE_DOCS: 'The file is one document; “---” begins another.',
  MULTILINE_IMPLICIT_KEY: 'A key stands on one line; perhaps a colon is missing or a quote is open.',
  BLOCK_AS_IMPLICIT_KEY: 'Two keys seem to stand on one line.',
  TAG_RESOLVE_FAILED: 'A type mark (!) is not used in line files.',
  BAD_ALIAS: 'A text that begins with * or & has to stand in quotes.',
};

/** Why a value was refused, and how it is written, by the kind of value that was wanted. */
export const kindWords = {
  section: {
    why: 'It has to be a section with keys of its own.',
    mend: 'Write its keys below it, indented.',
  },
  list: { why: 'It has to be a list.', mend: 'Begin each item with “- ”.' },
  some: { why: 'At least one is needed.', mend: 'Add one.' },
  choice: { why: 'Only certain words can stand here.', mend: correct },
  text: {
    why: 'It has to be text of 1 to 200 characters.',
    mend: 'Put it in quotes if it looks like a number.',
  },
  quoted: {
    why: 'It has to be text, because 10.1 and 10.10 are different.',
    mend: 'Put it in quotes, as in "5.2".',
  },
  id: {
    why: 'An id is made of letters, digits, “-” and “_”, and begins with a letter or a digit.',
    mend: 'Write it as in bottom-major; in quotes if it looks like a number.',
  },
  number: { why: 'It has to be a number.', mend: 'Write it as in 24.5.' },
  positive: { why: 'It has to be a number above 0.', mend: correct },
  share: { why: 'It has to be a share above 0 and not above 1.', mend: 'Write it as in 0.9.' },
  tenths: {
    why: 'A target is counted in tenths of a carton per minute, no finer.',
    mend: 'Round it to one decimal.',
  },
  whole: { why: 'It has to be a whole number, 0 or more.', mend: correct },
  wholePositive: { why: 'It has to be a whole number, 1 or more.', mend: correct },
  people: { why: 'It has to be a number of people, 1 to 99.', mend: correct },
  decimals: { why: 'It has to be a number of decimals, 0 to 6.', mend: correct },
  day: { why: 'A day is 1 for Monday to 7 for Sunday.', mend: 'Write them as in [1, 2, 3, 4, 5].' },
  wallTime: { why: 'It has to be a time of day.', mend: 'Write it in quotes, as in "06:00".' },
  range: { why: 'It has to be two numbers, the lower one first.', mend: 'Write it as in [0, 60].' },
  wholeKey: { why: 'The key has to be a whole number.', mend: 'Write it as in { 6: Execute }.' },
  duration: { why: 'It has to be a length of time.', mend: 'Write it as in 20 ms, 20 s, 10 min or 1 h.' },
  endpoint: {
    why: 'It has to be the address of an OPC UA server.',
    mend: 'Write it as in opc.tcp://192.168.0.10:4840.',
  },
  states: {
    why: 'It has to be opc30050, opc30060, or a map of numbers to state names.',
    mend: 'Write it as in { 6: Execute, 9: Aborted }.',
  },
  modes: { why: 'It has to be a map of numbers to modes.', mend: 'Write it as in { 1: produce, 4: setup }.' },
  targets: {
    why: 'Targets belong to numbers of people at loading.',
    mend: 'Write them as in { 1: 30, 2: 52 }.',
  },
  book: { why: 'It has to be a number for each size.', mend: 'Write it as in { sachet-20: 24.5 }.' },
  width: {
    why: 'A counter’s width is 16, 31 or 32 bits.',
    mend: 'Use 16 for UInt16, 32 for UInt32, 31 for Int32.',
  },
  yesNo: { why: 'It has to be true or false.', mend: correct },
} as const;
