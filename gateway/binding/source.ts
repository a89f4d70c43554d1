import { isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument, type Scalar } from 'yaml';
import { wordsIn } from '../../model/words/words.ts';
import type { Fault, Place } from './faults.ts';

const words = wordsIn('en').gateway.binding;

/** Where a value stands in a file: keys and places in lists from the top down. */
export type Path = readonly (string | number)[];

/** A YAML file as plain data that still knows where each value stands. */
export interface Source {
  readonly name: string;
  readonly data: unknown;
  /** Place of the value at a path; of the nearest value around it where there is none. */
  readonly place: (path: Path) => Place;
  /** Place of the key itself, for keys that should not be there. */
  readonly keyPlace: (path: Path) => Place;
  /** What keeps the text from being read as YAML at all; `data` says nothing then. */
  readonly faults: readonly Fault[];
}

/** A line file larger than this is none: the bundled one has 15 kB. Characters. */
const LENGTH_MAX = 400_000;
const DEPTH_MAX = 30;
/** As many faults as are worth keeping of a text that is no line file at all. */
const FAULTS_MAX = 100;
const START: Place = { line: 1, column: 1 };

/** With aliases a short text can stand for endlessly many values: more than this are not read. */
const VALUES_MAX = 50_000;

/**
 * Reads YAML into plain data. What an alias stands for is told at its anchor, where it is written. `keysAsWritten`: a key that is a
 * number stays as it stands there, with the zeros before it.
 */
export function readSource(text: string, name: string, { keysAsWritten = false } = {}): Source {
  if (text.length > LENGTH_MAX) return unreadable(name, { at: START, ...words.tooLarge(LENGTH_MAX) });
  const lines = new LineCounter();
  const document = parsed(text, lines);
  if (document === undefined) return unreadable(name, { at: START, ...words.tooDeep });
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const syntax = document.errors.map(({ pos, code }) => ({ at: at(pos[0]), ...words.syntax(code) }));
  if (syntax.length > 0) return { ...unreadable(name, syntax[0]!), faults: syntax };
  const walk: Walk = {
    ...{ at, faults: [], keys: new Map(), values: new Map(), anchors: new Map(), count: 0 },
    keysAsWritten,
  };
  const data = plain(document.contents, [], walk);
  return {
    name,
    data,
    place: (path) => nearest(walk.values, path),
    keyPlace: (path) => walk.keys.get(joined(path)) ?? nearest(walk.values, path),
    faults: walk.faults,
  };
}

interface Walk {
  readonly at: (offset: number) => Place;
  readonly faults: Fault[];
  readonly keys: Map<string, Place>;
  readonly values: Map<string, Place>;
  readonly anchors: Map<string, Node>;
  count: number;
  readonly keysAsWritten: boolean;
}

/** Undefined when the text is nested so deeply that the parser runs out of stack. */
function parsed(text: string, lineCounter: LineCounter) {
  try {
    return parseDocument(text, { lineCounter, uniqueKeys: false, schema: 'core', logLevel: 'error' });
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

function plain(node: Node | null, path: Path, walk: Walk): unknown {
  const place = walk.at(node?.range?.[0] ?? 0);
  if (node !== null || path.length === 0) walk.values.set(joined(path), place);
  walk.count += 1;
  if (path.length > DEPTH_MAX || walk.count > VALUES_MAX) {
    if (walk.faults.length < FAULTS_MAX) walk.faults.push({ at: place, ...words.tooDeep });
    return null;
  }
  if (node !== null && !isAlias(node) && node.anchor !== undefined) walk.anchors.set(node.anchor, node);
  if (isScalar(node)) return node.value;
  if (isSeq(node)) return node.items.map((item, index) => plain(item as Node | null, [...path, index], walk));
  if (isMap(node)) return plainMap(node.items, path, walk);
  if (!isAlias(node)) return null;
  const anchored = walk.anchors.get(node.source);
  if (anchored) return plain(anchored, path, walk);
  walk.faults.push({ at: place, ...words.alias(node.source) });
  return null;
}

function plainMap(
  items: readonly { readonly key: unknown; readonly value: unknown }[],
  path: Path,
  walk: Walk,
): Record<string, unknown> {
  const data: Record<string, unknown> = {};
  for (const { key, value } of items) {
    const offset = isScalar(key) || isMap(key) || isSeq(key) || isAlias(key) ? key.range?.[0] : undefined;
    const place = offset === undefined ? nearest(walk.values, path) : walk.at(offset);
    const name = isScalar(key) && key.value !== null ? keyOf(key, walk) : undefined;
    if (name === undefined || name === '__proto__') {
      walk.faults.push({ at: place, ...words.oddKey });
    } else if (Object.hasOwn(data, name)) {
      walk.faults.push({ at: place, ...words.keyTwice(name) });
    } else {
      const inner = [...path, name];
      walk.keys.set(joined(inner), place);
      walk.values.set(joined(inner), place);
      data[name] = plain(value as Node | null, inner, walk);
    }
  }
  return data;
}

function keyOf({ value, source }: Scalar, { keysAsWritten }: Walk): string {
  return keysAsWritten && typeof value === 'number' && source !== undefined ? source : String(value);
}

function unreadable(name: string, fault: Fault): Source {
  return { name, data: undefined, place: () => START, keyPlace: () => START, faults: [fault] };
}

function nearest(places: ReadonlyMap<string, Place>, path: Path): Place {
  for (let length = path.length; length >= 0; length -= 1) {
    const found = places.get(joined(path.slice(0, length)));
    if (found) return found;
  }
  return START;
}

function joined(path: Path): string {
  return path.join('\n');
}
