import { FileError } from '../../../gateway/binding/faults.ts';
import { type Bound, parseLineFile } from '../../../gateway/binding/binding.ts';

/** The least a line file has to say: one server, one machine, two stations, one size, one shift, two signals. */
export const small = `line: { id: l, name: Line, product: tea, zone: Europe/Berlin, pace: m }
servers:
  - { id: plc, endpoint: "opc.tcp://127.0.0.1:4840", security: none, clock: utc, namespace: "urn:x" }
machines:
  - { id: m, name: machine, states: opc30050 }
stations:
  - { id: pick, name: pick, pockets: 3 }
  - { id: discharge, name: discharge, pockets: 0 }
sizes:
  - { id: s20, name: Sachet 20, code: 20, targets: { 2: 52 } }
loading:
  station: pick
  crew: 2
  crews: [{ people: 2, note: both }]
  positions: [{ id: front, name: front, side: front }]
calendar:
  shifts:
    - { id: early, name: early, from: "06:00", to: "14:00" }
signals:
  - { role: state, tag: State }
  - { role: goodCount, tag: Good, width: 32 }
`;

/** The small file with one text in it replaced. */
export function changed(from: string, to: string): string {
  if (!small.includes(from)) throw new Error(`The small file has no ${from}`);
  return small.replace(from, () => to);
}

export function bound(text: string): Bound {
  return parseLineFile(text, 'small.yaml');
}

/** What is wrong in a file, each as `line:column what`. */
export function wrong(text: string): string[] {
  try {
    bound(text);
  } catch (error) {
    if (!(error instanceof FileError)) throw error;
    return error.faults.map(({ at, what }) => `${at.line}:${at.column} ${what}`);
  }
  return [];
}
