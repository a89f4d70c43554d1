import { type Bound, parseLineFile } from '../../gateway/binding/binding.ts';
import { tagsOf } from '../../simulator/lines/tags.ts';
import { standard } from '../../simulator/lines/variant.ts';
import { lineFileText } from '../../simulator/lines/variants.ts';

/** So many lines are heard at once, each of them with a server, a session and a subscription of its own. */
export const LINES = 100;
export const tags = tagsOf(standard);
/** Places in a list of counts: one for each tag of each line. */
export const PLACES = LINES * tags.length;

export function placeOf(line: number, tag: number): number {
  return line * tags.length + tag;
}

export function namespaceOf(line: number): string {
  return `urn:scoreline:bench:line-${line}`;
}

/** A line of the simulated kind. Here cartons come faster than a machine can make them, and are believed all the same. */
export function boundOf(line: number, endpoint: string): Bound {
  const text = lineFileText(standard)
    .replace(/id: line-3/, `id: line-${line}`)
    .replace(/endpoint: \S+/, `endpoint: ${endpoint}`)
    .replace(/namespace: \S+/, `namespace: ${namespaceOf(line)}`)
    .replace(/rateMax: \d+/, 'rateMax: 1000000')
    .replace(/^orders:\n.*\n/m, '');
  return parseLineFile(text, `line-${line}.yaml`);
}
