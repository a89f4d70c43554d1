import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { commandMistake } from '../../model/commandLine/commandLine.ts';
import { HOUR, type Span } from '../../model/units/units.ts';
import type { Limits } from '../retention/limits.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { TlsAsked } from '../tls/tls.ts';
import { badOption } from './badOption.ts';
import { readTls } from './tlsArguments.ts';

const words = wordsIn('en').gateway;

/** What the command line asks for. */
export interface Asked {
  /** A line file; undefined runs the demo line. */
  readonly line: string | undefined;
  readonly port: number;
  readonly host: string;
  /** Names by which screens may call this gateway, beside its addresses and this machine's own name. */
  readonly names: readonly string[];
  /** How screens are reached; undefined: in clear text, on this machine alone. */
  readonly tls?: TlsAsked;
  readonly data: string;
  readonly fresh: boolean;
  /** Days of the simulated line that the first start fills in before the tape. */
  readonly historyDays?: number;
  /** How much of the tape is kept; all of it where neither is said. */
  readonly keep?: Limits;
  /** Make the records of the past anew from the tape. */
  readonly rebuild?: boolean;
  /** Print another one-time admin code. */
  readonly newAdminCode?: boolean;
  readonly speed: number;
  /** Undefined: as before, or the demo's own. */
  readonly seed: number | undefined;
  /** Machine time at which the simulated line begins, milliseconds since 1970; the shift now when undefined. */
  readonly from: number | undefined;
  readonly help: boolean;
}

export function readArguments(args: readonly string[]): Asked {
  const values = parse(args);
  if (values.line !== undefined) refuseDemoOptions(values);
  const host = filled('--host', values.host ?? '127.0.0.1');
  const tls = values.help ? undefined : readTls(values, host);
  return {
    line: values.line === undefined ? undefined : resolve(filled('--line', values.line)),
    port: numberOf('--port', values.port ?? '8080', 0, 65_535),
    host,
    names: (values.name ?? []).map((name) => filled('--name', name)),
    ...(tls === undefined ? {} : { tls }),
    data: resolve(filled('--data', values.data ?? (values.line === undefined ? 'data/demo' : 'data'))),
    fresh: values.fresh ?? false,
    ...(values.history === undefined ? {} : { historyDays: daysOf('--history', values.history) }),
    ...keepOf(values),
    ...(values.rebuild ? { rebuild: true } : {}),
    ...(values['new-admin-code'] ? { newAdminCode: true } : {}),
    speed: numberOf('--speed', values.speed ?? '1', 1, 10),
    seed: values.seed === undefined ? undefined : numberOf('--seed', values.seed, 0, 1_000_000_000),
    from: momentOf('--from', values.from),
    help: values.help ?? false,
  };
}

const text = { type: 'string' } as const;
const yes = { type: 'boolean' } as const;
const options = {
  line: text,
  port: text,
  host: text,
  name: { type: 'string', multiple: true },
  tls: text,
  'tls-key': text,
  'tls-certificate': text,
  proxy: { type: 'string', multiple: true },
  'clear-text': yes,
  data: text,
  speed: text,
  seed: text,
  from: text,
  history: text,
  'keep-days': text,
  'keep-gb': text,
  fresh: yes,
  rebuild: yes,
  'new-admin-code': yes,
  help: yes,
} as const;

type Values = {
  -readonly [Name in Exclude<keyof typeof options, Many | Yes>]?: string;
} & { [Name in Many]?: string[] } & { [Name in Yes]?: boolean };
type Many = 'name' | 'proxy';
type Yes = 'clear-text' | 'fresh' | 'rebuild' | 'new-admin-code' | 'help';

function parse(args: readonly string[]): Values {
  const { values, tokens } = parseArgs({ args: [...args], options, strict: false, tokens: true });
  const mistake = commandMistake(tokens, options);
  if (mistake !== undefined) throw badOption(mistake);
  return values as Values;
}

/** A real machine cannot be made faster, begun anew or moved in time: what would do nothing is not taken in silence. */
function refuseDemoOptions(values: Values): void {
  for (const name of ['speed', 'seed', 'from', 'history', 'fresh'] as const) {
    if (values[name] === undefined) continue;
    const option = `--${name}`;
    throw new LineError(words.options.demoOnly(option), {
      why: words.options.demoOnlyWhy,
      mend: words.options.demoOnlyMend(option),
    });
  }
}

/** An empty name, as a script's unset variable leaves it, would be every address, or the folder one stands in. */
function filled(option: string, text: string): string {
  if (text.trim() !== '') return text;
  throw badOption(words.emptyOption(option));
}

function numberOf(option: string, text: string, low: number, high: number): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isInteger(value) && value >= low && value <= high) return value;
  throw badOption(words.badNumber(option, low, high));
}

/** A tape of a few days would keep too little of what its screens look back on. */
const KEEP_DAYS_LEAST = 31;

function keepOf(values: Values): { readonly keep?: Limits } {
  const { 'keep-days': days, 'keep-gb': gigabytes } = values;
  if (days === undefined && gigabytes === undefined) return {};
  return {
    keep: {
      ...(days === undefined
        ? {}
        : { age: (numberOf('--keep-days', days, KEEP_DAYS_LEAST, 36_500) * 24 * HOUR) as Span }),
      ...(gigabytes === undefined ? {} : { bytes: numberOf('--keep-gb', gigabytes, 1, 100_000) * 1e9 }),
    },
  };
}

/** Days of history at most. */
const DAYS_MOST = 366;

/** What fits a tape's ticks. Milliseconds since 1970. */
const MOMENT_FIRST = Date.UTC(2020, 0, 1);
const MOMENT_END = Date.UTC(2047, 0, 1);

function momentOf(option: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const ms = Date.parse(text);
  if (ms >= MOMENT_FIRST && ms < MOMENT_END) return ms;
  throw badOption(words.badMoment(option));
}

/** Days as `7d`: a year at most. */
function daysOf(option: string, text: string): number {
  const days = Number(/^(\d{1,3})d$/.exec(text)?.[1] ?? Number.NaN);
  if (days <= DAYS_MOST) return days;
  throw badOption(words.badDays(option, DAYS_MOST));
}
