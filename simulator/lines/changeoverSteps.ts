import type { SizeId } from './cartoner.ts';

/** What a changeover asks for beside its numbers. */
export interface StepFacts {
  readonly id: string;
  readonly kind: 'part' | 'check' | 'approval';
  readonly name: string;
  readonly station?: string;
  readonly in?: readonly ('size' | 'artwork' | 'startUp')[];
  readonly parts?: Readonly<Record<SizeId, string>>;
}

export const changeoverSteps: readonly StepFacts[] = [
  {
    id: 'line-cleared',
    kind: 'check',
    name: 'blanks and sachets of the old order are off the line',
    station: 'magazine',
    in: ['size', 'artwork'],
  },
  {
    id: 'cups',
    kind: 'part',
    name: 'suction cups',
    station: 'pick',
    parts: {
      'sachet-20': 'small, red ring',
      'sachet-48': 'large, blue ring',
      'sampler-12': 'large, blue ring',
    },
  },
  {
    id: 'pocket-plates',
    kind: 'part',
    name: 'pocket plates',
    station: 'open',
    parts: { 'sachet-20': 'set A', 'sachet-48': 'set B', 'sampler-12': 'set C' },
  },
  {
    id: 'chute',
    kind: 'check',
    name: 'loading chute stands clear of the top flap',
    station: 'loading',
  },
  {
    id: 'trial-cartons',
    kind: 'check',
    name: 'ten trial cartons: square, folded on the score, tuck closed',
    in: ['size', 'artwork', 'startUp'],
  },
  {
    id: 'first-cartons',
    kind: 'approval',
    name: 'artwork and code of the first cartons',
    in: ['size', 'artwork', 'startUp'],
  },
];
