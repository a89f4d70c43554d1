import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseLineFile } from '../../../gateway/binding/binding.ts';
import { parseSymptoms } from '../../../gateway/binding/symptomsFile.ts';
import {
  type AdjustmentSigns,
  BEGINS,
  LOOSE,
  type OtherCause,
  type Signs,
  type Strength,
  STRENGTHS,
  type SymptomKnowledge,
  SYMPTOMS,
} from '../../../model/diagnosis/symptoms.ts';
import { chance, type Draw, pick, stream, uniform, whole } from '../../../simulator/machine/random.ts';

/** A machine as the proof needs it: what its people wrote of it, its reasons, and which adjustments have sensors. */
export interface Machine {
  readonly name: MachineName;
  readonly knowledge: SymptomKnowledge;
  readonly reasons: readonly MachineReason[];
  /** Numbers of adjustments with encoders. */
  readonly sensed: readonly string[];
}

export interface MachineReason {
  readonly kind: 'reject' | 'stop';
  readonly id: string | number;
  /** Whose stop it is; of a reject, whom it is charged to. */
  readonly station: string;
}

export const MACHINES = ['line3', 'large'] as const;
export type MachineName = (typeof MACHINES)[number];

const lines = join(import.meta.dirname, '../../../simulator/lines');
const made = new Map<MachineName, Machine>();

export function machineOf(name: MachineName): Machine {
  const machine = made.get(name) ?? (name === 'line3' ? bundled() : large());
  made.set(name, machine);
  return machine;
}

function bundled(): Machine {
  const read = (file: string) => readFileSync(join(lines, file), 'utf8');
  const { line } = parseLineFile(read('line-3.yaml'), 'line-3.yaml');
  const rejects = line.rejects.flatMap(({ id, station, means }): MachineReason[] =>
    means === 'reject' ? [{ kind: 'reject', id, station }] : [],
  );
  const stops = line.reasons.flatMap(({ number, kind, station }): MachineReason[] =>
    kind === 'machine' && station !== undefined ? [{ kind: 'stop', id: number, station }] : [],
  );
  return {
    name: 'line3',
    knowledge: parseSymptoms(read('line-3.symptoms.yaml'), 'line-3.symptoms.yaml', line),
    reasons: [...rejects, ...stops],
    sensed: line.signals.flatMap(({ role, of }) => (role === 'adjustment' && of !== undefined ? [of] : [])),
  };
}

/** An invented machine: 25 adjustments on nine stations, seven of them on one, and some that act on the next one too. */
const ON_EACH = [1, 2, 2, 3, 7, 2, 2, 3, 3] as const;
const ENCODERS = 4;

function large(): Machine {
  const draw = stream(77, 'large machine');
  const stations = ON_EACH.map((_, place) => `s${place + 1}`);
  const reasons = stations.flatMap((station, place): MachineReason[] => [
    { kind: 'reject', id: place < 5 ? 'bottom' : 'top', station: place < 5 ? 's5' : 's9' },
    ...(place % 3 === 1 ? [{ kind: 'reject' as const, id: `crushed-${station}`, station }] : []),
    ...[1, 2].map((nth) => ({ kind: 'stop' as const, id: 10 * (place + 1) + nth, station })),
  ]);
  const own = reasons.filter(({ id }, place) => reasons.findIndex((one) => one.id === id) === place);
  const adjustments = ON_EACH.flatMap((count, place) =>
    Array.from({ length: count }, (_, nth): AdjustmentSigns => {
      const next = stations[place + 1];
      const acts = [stations[place]!, ...(next !== undefined && chance(draw, 0.25) ? [next] : [])];
      const loose = pick(draw, LOOSE, (one) => (one === 'sometimes' ? 2 : 1));
      const signs = () => inventedSigns(draw, place, own, acts);
      return {
        number: `${place + 1}.${nth + 1}`,
        stations: acts,
        loose,
        shows: 1,
        high: signs(),
        low: signs(),
      };
    }),
  );
  const causes = [
    otherCause('board-lot', stations, ['lot'], inventedSigns(draw, 4, own, stations)),
    ...stations.flatMap((station, place): OtherCause[] =>
      place % 2 === 0
        ? [
            otherCause(
              `worn-${station}`,
              [station],
              [pick(draw, BEGINS.slice(1), () => 1)],
              inventedSigns(draw, place, own, [station]),
            ),
          ]
        : [],
    ),
  ];
  const numbers = adjustments.map(({ number }) => number);
  const sensed = Array.from({ length: ENCODERS }, (_, nth) => numbers[(nth * 7 + 3) % numbers.length]!);
  return { name: 'large', knowledge: { adjustments, causes }, reasons: own, sensed };
}

function otherCause(
  id: string,
  stations: readonly string[],
  begins: OtherCause['begins'],
  signs: Signs,
): OtherCause {
  return { id, name: id, stations, begins, signs };
}

/** One or two symptoms, the reject of its half of the machine, and one or two stops. */
function inventedSigns(
  draw: Draw,
  place: number,
  reasons: readonly MachineReason[],
  acts: readonly string[],
): Signs {
  const strength = (): Strength => pick(draw, STRENGTHS, (one) => (one === 'seldom' ? 1 : 2));
  const symptoms = Array.from({ length: whole(draw, 1, 2) }, () => pick(draw, SYMPTOMS, () => 1));
  const stops = reasons.filter(({ kind, station }) => kind === 'stop' && acts.includes(station));
  const crushed = reasons.filter(
    ({ kind, id, station }) =>
      kind === 'reject' && String(id).startsWith('crushed') && acts.includes(station),
  );
  return {
    symptoms: new Map(symptoms.map((symptom) => [symptom, strength()])),
    rejects: new Map([
      [place < 5 ? 'bottom' : 'top', strength()],
      ...crushed.flatMap(({ id }) => (chance(draw, 0.6) ? [[String(id), strength()] as const] : [])),
    ]),
    stops: new Map(
      stops.flatMap(({ id }) => (uniform(draw, 0, 1) < 0.6 ? [[Number(id), strength()] as const] : [])),
    ),
  };
}
