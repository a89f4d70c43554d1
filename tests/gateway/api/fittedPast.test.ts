import { describe, expect, it } from 'vitest';
import { type FittedSaid, partsAt } from '../../../gateway/api/fittedPast.ts';
import { setLine } from '../../model/setpoints/setLine.ts';
import { at } from '../../model/smallLine.ts';

const line = {
  ...setLine,
  changeoverSteps: [
    { id: 'cups', kind: 'part', name: 'suction cups', in: ['size'] },
    { id: 'plates', kind: 'part', name: 'pocket plates', in: ['size'] },
  ],
} as const;
const said = (second: number, name: string, step?: string): FittedSaid => ({ at: at(second), name, step });

describe('change parts of a run', () => {
  it('[SP4] are one name: each part that was named last, and a whole set takes the place of what was before it', () => {
    const parts = [said(10, 'K1', 'cups'), said(20, 'P4', 'plates'), said(30, 'K2', 'cups')];
    expect(partsAt(line, parts, at(25))).toBe('suction cups K1, pocket plates P4');
    expect(partsAt(line, parts, at(40))).toBe('suction cups K2, pocket plates P4');
    const set = [...parts, said(50, 'set B'), said(60, 'K3', 'cups')];
    expect(partsAt(line, set, at(55))).toBe('set B');
    expect(partsAt(line, set, at(70))).toBe('set B, suction cups K3');
    expect(partsAt(line, parts, at(5))).toBeUndefined();
  });
});
