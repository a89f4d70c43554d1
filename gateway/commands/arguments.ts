import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway;

/** What the command line asks for. */
export interface Asked {
  /** A line file; undefined runs the demo line. */
  readonly line: string | undefined;
  readonly port: number;
  readonly host: string;
  readonly data: string;
  readonly fresh: boolean;
  readonly speed: number;
  readonly seed: number;
  readonly help: boolean;
}

export function readArguments(args: readonly string[]): Asked {
  const values = parse(args);
  return {
    line: values.line === undefined ? undefined : resolve(values.line),
    port: numberOf('--port', values.port ?? '8080', 0, 65_535),
    host: values.host ?? '127.0.0.1',
    data: resolve(values.data ?? 'data'),
    fresh: values.fresh ?? false,
    speed: numberOf('--speed', values.speed ?? '1', 1, 10),
    seed: numberOf('--seed', values.seed ?? '3', 0, 1_000_000_000),
    help: values.help ?? false,
  };
}

function parse(args: readonly string[]) {
  const text = { type: 'string' } as const;
  try {
    return parseArgs({
      args: [...args],
      options: {
        line: text,
        port: text,
        host: text,
        data: text,
        speed: text,
        seed: text,
        fresh: { type: 'boolean' },
        help: { type: 'boolean' },
      },
    }).values;
  } catch (error) {
    throw badOption((error as Error).message);
  }
}

function numberOf(option: string, text: string, low: number, high: number): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isInteger(value) && value >= low && value <= high) return value;
  throw badOption(words.badNumber(option, low, high));
}

function badOption(what: string): LineError {
  return new LineError(words.badOption(what), { why: words.badOptionWhy, mend: words.badOptionMend });
}
