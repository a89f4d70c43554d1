import { adjustments, type SizeId, tagName } from './cartoner.ts';

/** How a simulated line is equipped. The bundled line is `standard`. */
export interface Variant {
  /** Which way the two tucks point; on a reverse tuck the bottom is harder to see and to fold. */
  readonly tuck: 'straight' | 'reverse';
  readonly loading: 'two' | 'four' | 'automatic';
  /** Stop devices one by one, or in series behind one bit. */
  readonly buttons: 'single' | 'series';
  readonly encoders: boolean;
  readonly firstOut: boolean;
  readonly twins: boolean;
  readonly stateTag: boolean;
  /** Folding stations count the cycles in which a sensor of their own saw a fold go amiss. */
  readonly nearMisses: boolean;
  /** The PLC knows no set-up mode: a tag of its own tells that trial cartons are run. */
  readonly trialTag: boolean;
}

export const standard: Variant = {
  tuck: 'straight',
  loading: 'two',
  buttons: 'single',
  encoders: true,
  firstOut: true,
  twins: true,
  stateTag: true,
  nearMisses: true,
  trialTag: false,
};

export interface Position {
  readonly id: string;
  readonly name: string;
  readonly side: 'front' | 'back';
}

const front: Position = { id: 'front', name: 'loading front', side: 'front' };
const back: Position = { id: 'back', name: 'loading back', side: 'back' };

/** Loading positions, each with its own stop button. */
export function positionsOf(variant: Variant): readonly Position[] {
  switch (variant.loading) {
    case 'two':
      return [front, back];
    case 'four':
      return [
        front,
        back,
        { id: 'front-2', name: 'loading front 2', side: 'front' },
        { id: 'back-2', name: 'loading back 2', side: 'back' },
      ];
    case 'automatic':
      return [{ id: 'loader', name: 'loader', side: 'back' }];
  }
}

export interface Crew {
  readonly people: number;
  readonly note: string;
}

/** Crews that can be chosen; the first number is what the line file assumes. */
export function crewsOf(variant: Variant): { readonly assumed: number; readonly crews: readonly Crew[] } {
  switch (variant.loading) {
    case 'two':
      return {
        assumed: 2,
        crews: [
          { people: 1, note: 'one position' },
          { people: 2, note: 'front and back' },
          { people: 3, note: 'one relieves the others' },
        ],
      };
    case 'four':
      return {
        assumed: 4,
        crews: [
          { people: 2, note: 'front and back' },
          { people: 4, note: 'all four positions' },
        ],
      };
    case 'automatic':
      return { assumed: 1, crews: [{ people: 1, note: 'loader' }] };
  }
}

/** Target in cartons per minute by size and crew (common practice, no source). */
export function targetsOf(variant: Variant, size: SizeId): Readonly<Record<number, number>> {
  switch (variant.loading) {
    case 'two': {
      const two = { 'sachet-20': [30, 52, 52], 'sachet-48': [26, 44, 44], 'sampler-12': [20, 36, 36] }[size];
      return { 1: two[0] ?? 0, 2: two[1] ?? 0, 3: two[2] ?? 0 };
    }
    case 'four': {
      const four = { 'sachet-20': [52, 80], 'sachet-48': [44, 76], 'sampler-12': [36, 72] }[size];
      return { 2: four[0] ?? 0, 4: four[1] ?? 0 };
    }
    case 'automatic':
      return { 1: { 'sachet-20': 80, 'sachet-48': 76, 'sampler-12': 72 }[size] };
  }
}

export interface Device {
  readonly id: string;
  readonly name: string;
  readonly kind: 'button' | 'circuit';
  readonly side: 'front' | 'back';
  readonly station?: string;
  readonly position?: string;
  readonly candidates: readonly string[];
  readonly tag: string;
  readonly twinTag: string;
}

/** The buttons people can reach, whatever the wiring shows of them. */
export function buttonsOf(variant: Variant): readonly { readonly id: string; readonly name: string }[] {
  return [
    { id: 'main-panel', name: 'main panel' },
    ...positionsOf(variant).map((position) => ({
      id: position.id === 'loader' ? 'loader' : `loading-${position.id}`,
      name: position.name,
    })),
  ];
}

/** Stop devices as the PLC shows them: each button, or one circuit of all. */
export function devicesOf(variant: Variant): readonly Device[] {
  if (variant.buttons === 'series') {
    const candidates = buttonsOf(variant).map(({ name }) => name);
    return [
      {
        id: 'stop-circuit',
        name: 'stop circuit',
        kind: 'circuit',
        side: 'front',
        candidates,
        tag: 'Stop.Circuit',
        twinTag: 'Stop.CircuitCount',
      },
    ];
  }
  const positions = positionsOf(variant);
  return buttonsOf(variant).map(({ id, name }, index) => {
    const position = index === 0 ? undefined : positions[index - 1];
    const tag = `Stop.${tagName(id)}`;
    return {
      id,
      name,
      kind: 'button' as const,
      side: position?.side ?? ('front' as const),
      ...(position ? { station: 'loading', position: position.id } : {}),
      candidates: [],
      tag,
      twinTag: `${tag}Count`,
    };
  });
}

/** Adjustments whose reading the PLC knows. */
export function encodersOf(variant: Variant): readonly { readonly number: string; readonly tag: string }[] {
  if (!variant.encoders) return [];
  return adjustments.flatMap(({ number, tag }) => (tag === undefined ? [] : [{ number, tag }]));
}
