import type { Instant } from '../../model/units/units.ts';
import { stations } from '../lines/cartoner.ts';

/** One carton on its way: what has been done to it, and who spoiled it first. */
export interface Carton {
  readonly id: number;
  readonly picked: Instant;
  readonly size: string;
  square: boolean;
  bottomMinor: boolean;
  bottomMajor: boolean;
  captured: boolean;
  loaded: boolean;
  topMinor: boolean;
  topMajor: boolean;
  printed: boolean;
  spoiledBy: string | undefined;
  how: string | undefined;
  /** Loading position that left it empty. */
  position: string | undefined;
  /** Distance of the last station that worked on it, and whether it was then jogged back: no station works on it twice. */
  served: number;
  jogged: boolean;
}

export function newCarton(id: number, picked: Instant, size: string): Carton {
  return {
    id,
    picked,
    size,
    square: true,
    bottomMinor: true,
    bottomMajor: true,
    captured: true,
    loaded: true,
    topMinor: true,
    topMajor: true,
    printed: true,
    spoiledBy: undefined,
    how: undefined,
    position: undefined,
    served: Number.MAX_SAFE_INTEGER,
    jogged: false,
  };
}

/** Marks who spoiled a carton; the first one stands. */
export function spoil(carton: Carton, station: string, how: string): void {
  if (carton.spoiledBy !== undefined) return;
  carton.spoiledBy = station;
  carton.how = how;
}

/** Pockets between pick and discharge, by their distance to the discharge check. */
export interface Pockets {
  readonly ring: (Carton | undefined)[];
  turn: number;
  filled: number;
}

/** Distance of the pocket into which blanks are picked. */
export const firstPocket = 25;
const places = firstPocket + 1;

export function emptyPockets(): Pockets {
  return { ring: new Array<Carton | undefined>(places).fill(undefined), turn: 0, filled: 0 };
}

export function at(pockets: Pockets, distance: number): Carton | undefined {
  return pockets.ring[(pockets.turn + distance) % places];
}

export function put(pockets: Pockets, distance: number, carton: Carton): void {
  pockets.ring[(pockets.turn + distance) % places] = carton;
  pockets.filled += 1;
}

/** Takes a carton out of its pocket. */
export function take(pockets: Pockets, distance: number): Carton | undefined {
  const place = (pockets.turn + distance) % places;
  const carton = pockets.ring[place];
  if (carton) pockets.filled -= 1;
  pockets.ring[place] = undefined;
  return carton;
}

/** One cycle: every pocket comes one place nearer to discharge. The pocket at discharge must be empty by then. */
export function advance(pockets: Pockets): void {
  pockets.turn = (pockets.turn + 1) % places;
}

/** One cycle backwards: every pocket goes one place back. The first pocket must be empty by then. */
export function retreat(pockets: Pockets): void {
  pockets.turn = (pockets.turn + places - 1) % places;
}

/** Station whose stretch of the machine a pocket lies in: the last one it has passed. */
export function zoneOf(distance: number): string {
  let zone = 'pick';
  for (const { id, pockets } of stations) if (id !== 'magazine' && pockets >= distance) zone = id;
  return zone;
}
