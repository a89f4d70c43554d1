import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { EPOCH_2020_MS, type Instant, instantFromMs, TICKS_PER_MS } from '../../../model/units/units.ts';

export type TagValue = number | boolean | string | null;

/** A value as the client received it. */
export interface Told {
  readonly tag: string;
  readonly value: TagValue;
  /** Number of its OPC UA data type; 0 where no value came. */
  readonly dataType: number;
  readonly status: number;
  readonly source: Instant;
  readonly serverMs: number;
}

/** A publish as the client received it; without values a keep-alive. Milliseconds since 1970. */
export interface Publish {
  readonly kind: 'publish';
  readonly received: number;
  readonly number: number;
  readonly told: readonly Told[];
}

/** What the client said of its connection. */
export interface LinkEvent {
  readonly kind: 'event';
  readonly received: number;
  readonly name: string;
}

/** A value that the server's program really set. */
export interface Truth {
  readonly at: Instant;
  readonly value: TagValue;
  readonly status: number;
}

export interface Capture {
  readonly tags: readonly string[];
  /** Number of the OPC UA data type of each tag's values. */
  readonly types: ReadonlyMap<string, number>;
  readonly heard: readonly (Publish | LinkEvent)[];
  /** By tag, in the order in which it was set. */
  readonly truth: ReadonlyMap<string, readonly Truth[]>;
  /** When the server's program began, ended, and was told to do something. */
  readonly commands: readonly { readonly at: Instant; readonly name: string; readonly words: string }[];
}

/** Float (OPC 10000-6, 5.1.2): the program's numbers are doubles, and rounded on the wire. */
const FLOAT = 10;

interface Line {
  readonly handles?: readonly (readonly [number, string])[];
  readonly ev?: string;
  readonly x?: string;
  readonly r?: number;
  readonly seq?: number;
  readonly q?: number;
  readonly n?: string;
  readonly v?: TagValue;
  readonly dt?: number;
  readonly s?: number;
  readonly st?: string;
  readonly sp?: number;
  readonly vt?: string;
  readonly t?: string;
}

/** One recording: what a client received, and beside it what the server's program did. README.md has the format. */
export function readCapture(name: string): Capture {
  const received = linesOf(`${name}.received.ndjson.gz`);
  const tags = received.flatMap(({ handles }) => handles ?? []).map(([, tag]) => tag);
  const heard: (Publish | LinkEvent)[] = [];
  let told: Told[] = [];
  for (const line of received) {
    if (line.ev !== undefined) {
      heard.push({ kind: 'event', received: Math.floor(line.r ?? 0), name: line.ev });
    } else if (line.seq !== undefined) {
      told = [];
      heard.push({
        kind: 'publish',
        received: Math.floor(line.r!),
        number: line.seq,
        told,
      });
    } else if (line.q !== undefined) {
      told.push(toldOf(line));
    }
  }
  const types = new Map(received.flatMap(({ n, dt, v }) => (n && v !== null ? [[n, dt!]] : [])));
  return { tags, types, heard, ...truthOf(name, types) };
}

function truthOf(name: string, types: Capture['types']): Pick<Capture, 'truth' | 'commands'> {
  const truth = new Map<string, Truth[]>();
  const commands: { at: Instant; name: string; words: string }[] = [];
  for (const { t, ev, x, n, v, s } of linesOf(`${name}.truth.ndjson.gz`)) {
    const at = instantOf(t!);
    if (ev !== undefined) commands.push({ at, name: ev, words: x ?? '' });
    else {
      const value = types.get(n!) === FLOAT ? Math.fround(v as number) : v!;
      truth.set(n!, [...(truth.get(n!) ?? []), { at, value, status: s! }]);
    }
  }
  return { truth, commands };
}

function toldOf({ n, v, dt, s, st, sp, vt }: Line): Told {
  return {
    tag: n!,
    value: v!,
    dataType: dt!,
    status: s!,
    source: instantFromMs(Date.parse(st!), Math.floor((sp ?? 0) / 100_000)),
    serverMs: Date.parse(vt!),
  };
}

/** ISO 8601 with seven decimals. */
function instantOf(text: string): Instant {
  const [whole, decimals = ''] = text.replace('Z', '').split('.');
  return instantFromMs(Date.parse(`${whole}Z`), Number(decimals.padEnd(7, '0')));
}

/** Milliseconds since 1970, and the ticks within them, as stamps come over the wire. */
export function stampOf(at: Instant): { readonly ms: number; readonly ticks: number } {
  const ms = Math.floor(at / TICKS_PER_MS);
  return { ms: EPOCH_2020_MS + ms, ticks: at - ms * TICKS_PER_MS };
}

function linesOf(file: string): Line[] {
  const text = gunzipSync(readFileSync(join(import.meta.dirname, file))).toString('utf8');
  return text
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as Line);
}
