import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { commandMistake } from '../../model/commandLine/commandLine.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { type Instant, instantFromMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { standard, type Variant } from '../lines/variant.ts';

/** What the simulator's command line asks for. */
export interface Asked {
  readonly seed: number;
  readonly speed: number;
  readonly port: number;
  readonly host: string;
  /** Machine time at which live running begins; the wall clock's when undefined. */
  readonly start: Instant | undefined;
  /** Machine time from which history is sent first. */
  readonly history: Instant | undefined;
  readonly ledger: string | undefined;
  readonly certificates: string;
  /** File of the faults that are played; undefined when none are. */
  readonly faults: string | undefined;
  readonly variant: Variant;
  readonly lockOuts: boolean;
  /** How many times as often as usual something happens. */
  readonly lively: number;
  /** Cartons of the first order that were made before the start. */
  readonly made: number;
  /** History before this moment is run through, but not sent. */
  readonly sendFrom: Instant | undefined;
  /** Print the line file of this variant, and end. */
  readonly printLine: boolean;
}

const words = wordsIn('en').simulator;
const equipment = ['encoders', 'firstOut', 'twins', 'stateTag', 'nearMisses', 'lockOuts'] as const;

/** Reads the command line; what cannot be read is told as something to mend. `now` is the present moment. */
export function readArguments(args: readonly string[], now: Instant): Asked {
  const values = parse(args);
  const without = (values.without ?? '').split(',').filter((name) => name !== '');
  for (const name of without) choose('--without', name, equipment);
  const has = (name: (typeof equipment)[number]) => !without.includes(name);
  const start = moment('--start', values.start);
  const history = moment('--history', values.history);
  if (history !== undefined && history >= (start ?? now)) {
    throw new LineError(words.historyLater, { why: words.historyLaterWhy, mend: words.historyLaterMend });
  }
  return {
    seed: numberIn('--seed', values.seed ?? '1', 0, Number.MAX_SAFE_INTEGER, true),
    speed: numberIn('--speed', values.speed ?? '1', 0.1, 10, false),
    port: numberIn('--port', values.port ?? '4840', 0, 65_535, true),
    host: values.host ?? '127.0.0.1',
    start,
    history,
    ledger: values.ledger,
    certificates: values.certificates ?? join(tmpdir(), 'scoreline-simulator', 'certificates'),
    faults: values.faults,
    variant: {
      tuck: choose('--tuck', values.tuck ?? standard.tuck, ['straight', 'reverse']),
      loading: choose('--loading', values.loading ?? standard.loading, ['two', 'four', 'automatic']),
      buttons: choose('--buttons', values.buttons ?? standard.buttons, ['single', 'series']),
      encoders: has('encoders'),
      firstOut: has('firstOut'),
      twins: has('twins'),
      stateTag: has('stateTag'),
      nearMisses: has('nearMisses'),
      trialTag: values['trial-tag'] ?? false,
    },
    lockOuts: has('lockOuts'),
    lively: numberIn('--lively', values.lively ?? '1', 0, 50, false),
    made: numberIn('--made', values.made ?? '0', 0, 1_000_000, true),
    sendFrom: moment('--send-from', values['send-from']),
    printLine: values['print-line'] ?? false,
  };
}

const text = { type: 'string' } as const;
const options = {
  seed: text,
  speed: text,
  port: text,
  host: text,
  start: text,
  history: text,
  ledger: text,
  certificates: text,
  faults: text,
  tuck: text,
  loading: text,
  buttons: text,
  without: text,
  lively: text,
  made: text,
  'send-from': text,
  'trial-tag': { type: 'boolean' },
  'print-line': { type: 'boolean' },
} as const;

type Values = { readonly [Name in Exclude<keyof typeof options, 'print-line' | 'trial-tag'>]?: string } & {
  readonly 'print-line'?: boolean;
  readonly 'trial-tag'?: boolean;
};

function parse(args: readonly string[]): Values {
  const { values, tokens } = parseArgs({ args: [...args], options, strict: false, tokens: true });
  const mistake = commandMistake(tokens, options);
  if (mistake === undefined) return values as Values;
  throw new LineError(words.badOption(mistake), { why: words.badOptionWhy, mend: words.badOptionMend });
}

function numberIn(option: string, text: string, low: number, high: number, wholeOnly: boolean): number {
  const value = Number(text);
  if (text.trim() !== '' && value >= low && value <= high && (!wholeOnly || Number.isInteger(value)))
    return value;
  throw new LineError(words.badValue(option, text), {
    why: words.badNumberWhy(low, high, wholeOnly),
    mend: words.badValueMend,
  });
}

function moment(option: string, text: string | undefined): Instant | undefined {
  if (text === undefined) return undefined;
  const ms = Date.parse(text);
  if (Number.isFinite(ms)) return instantFromMs(ms);
  throw new LineError(words.badValue(option, text), { why: words.badMomentWhy, mend: words.badMomentMend });
}

function choose<Choice extends string>(option: string, text: string, choices: readonly Choice[]): Choice {
  const found = choices.find((choice) => choice === text);
  if (found !== undefined) return found;
  throw new LineError(words.badValue(option, text), {
    why: words.badChoiceWhy(choices),
    mend: words.badValueMend,
  });
}
