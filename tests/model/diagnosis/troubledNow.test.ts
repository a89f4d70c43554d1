import { describe, expect, it } from 'vitest';
import { troubledNow } from '../../../model/diagnosis/troubledNow.ts';
import { at, type Rows } from '../smallLine.ts';
import { atRate, entry, setFold } from '../setpoints/setLine.ts';

/** What a diagnosis goes by of the guide 2.2, which people read by eye. */
function guide(...rows: Rows[number][]) {
  const { index, state } = setFold(atRate, rows);
  const troubled = troubledNow({
    ...{ index, state, station: 'fold', from: at(1), to: at(200), changeover: undefined },
    ...{ minutes: [], stops: [], looks: [], fitted: [], histories: new Map(), learned: new Map() },
    knowledge: { adjustments: [], causes: [] } as never,
    earlier: [{ cartons: 1000, rejects: new Map(), stops: new Map() }],
  });
  return troubled?.adjustments.find(({ number }) => number === '2.2')?.reading;
}
const reading = { kind: 'reading', station: 'fold', adjustment: '2.2', how: 'typed' } as const;

describe('what is known of a station in trouble', () => {
  it('[SP10] [DG8] a scale that was read goes in with what it was found at, and with where it was put', () => {
    expect(guide(entry(150, 'a', { ...reading, value: 27 }))).toEqual({
      ...{ value: 27, known: 'typed', since: at(150) },
    });
    expect(guide(entry(150, 'a', { ...reading, value: 27, found: 27 }))).toMatchObject({
      value: 27,
      put: 27,
    });
    expect(guide(entry(150, 'a', { ...reading, value: 26, found: 27 }))).toMatchObject({
      value: 27,
      put: 26,
    });
  });
});
