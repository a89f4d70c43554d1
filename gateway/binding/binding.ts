import { dirname, resolve } from 'node:path';
import type { Line } from '../../model/line/line.ts';
import type { SignalIndex } from '../../model/signals/signals.ts';
import { assert } from '../../model/trouble/trouble.ts';
import { crossFaults } from './checks.ts';
import { FileError } from './faults.ts';
import { lineOf } from './lineOf.ts';
import type { LineFile } from './schema.ts';
import { readShape } from './shapeFaults.ts';
import { signalsOf, type TagOf } from './signalsOf.ts';
import { readSource } from './source.ts';
import { readText } from './textFile.ts';

/** A line, and where each of its signals comes from. */
export interface Bound {
  readonly line: Line;
  readonly servers: readonly Server[];
  /** Where a signal comes from. What people and the gateway write has no entry. */
  readonly tags: ReadonlyMap<SignalIndex, TagOf>;
  /** Absolute path of the list of orders, which lies beside the line file. */
  readonly ordersFile?: string;
}

/** One OPC UA server, as the line file describes it. */
export interface Server {
  readonly id: string;
  readonly endpoint: string;
  readonly security: 'none' | 'sign' | 'signAndEncrypt';
  /** What its source times are: UTC, local time sent as UTC, or not to be used. */
  readonly clock: 'utc' | 'local' | 'received';
  /** URI in which bare tags are looked up; empty when every tag is a full node id. */
  readonly namespace: string;
}

/** Reads a line file. Throws one `LineError` with everything that is wrong in it. */
export async function readLineFile(path: string): Promise<Bound> {
  return parseLineFile(await readText(path), path);
}

/** The same for text at hand; `name` is its path, for messages and for the files beside it. */
export function parseLineFile(text: string, name: string): Bound {
  const source = readSource(text, name);
  if (source.data === undefined) throw new FileError(name, source.faults);
  const { file, faults: shapeFaults } = readShape(source);
  const faults = [...source.faults, ...shapeFaults, ...crossFaults(source)];
  if (faults.length > 0) throw new FileError(name, faults);
  assert(file !== undefined, 'a line file was refused without a fault');
  return bind(file, name);
}

function bind(file: LineFile, name: string): Bound {
  const { signals, tags } = signalsOf(file);
  return {
    line: lineOf(file, signals),
    servers: file.servers.map(({ namespace, ...server }) => ({ ...server, namespace: namespace ?? '' })),
    tags,
    ...(file.orders === undefined ? {} : { ordersFile: resolve(dirname(name), file.orders.file) }),
  };
}
