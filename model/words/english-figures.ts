import { figuresScreen } from './english-figures-screen.ts';
import { FIGURE_WORDS } from './english-figures-words.ts';

/** What is said around a figure’s definition. */
export const figuresWords = {
  of: FIGURE_WORDS,
  screen: figuresScreen,
  ask: (name: string) => `${name}: how is this made?`,
  title: 'How is this made?',
  asShown: 'as it stands there',
  /** What a value in a definition is of: perhaps more than what was pressed. */
  ofWhat: (span: string, chosen: readonly string[]) => ['the whole line', ...chosen, span].join(', '),
  close: 'close',
  back: 'back',
  kind: 'how good',
  seen: 'seen',
  how: 'Worked out as',
  from: 'Made of',
  records: 'looked up in',
  source: 'source',
  own: (rule: string) => `this program’s own definition, rule ${rule} of its specification`,
  ownPlain: 'this program’s own definition',
  asRead: 'shown as it is read',
  withRule: (source: string, rule: string) => `${source}; rule ${rule}`,
  kinds: {
    counted: 'counted by the PLC',
    timed: 'measured between moments',
    derived: 'arithmetic, as exact as what it is made of',
    estimate: 'an estimate',
    set: 'set by people',
    read: 'as read',
  },
  recordNames: {
    counters: 'the PLC’s counters',
    stops: 'stops',
    presses: 'safety stops',
    guards: 'guards, on Safety stops',
    changeovers: 'changeovers',
    gaps: 'time not seen',
    calendar: 'the calendar in the line’s file',
    lineFile: 'the line’s file',
    entries: 'entries of people',
    orders: 'orders',
    signals: 'signals',
  },
} as const;
