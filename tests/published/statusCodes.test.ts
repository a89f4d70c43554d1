import { StatusCodes } from 'node-opcua';
import { describe, expect, it } from 'vitest';
import * as status from '../../model/status/status.ts';

/** OPC 10000-4, 7.39 and the numbers of node-opcua's table of status codes. */
describe('OPC UA status codes', () => {
  it('the top two bits are the severity, for every code of the table', () => {
    let checked = 0;
    for (const code of Object.values(StatusCodes)) {
      if (typeof code !== 'object' || code === null || !('value' in code)) continue;
      const expected = /^Good/.test(code.name) ? 'good' : /^Uncertain/.test(code.name) ? 'uncertain' : 'bad';
      if (/^(Good|Uncertain|Bad)/.test(code.name)) {
        expect([code.name, status.severity(code.value >>> 0)]).toEqual([code.name, expected]);
        checked += 1;
      }
    }
    expect(checked).toBeGreaterThan(200);
  });

  it('our names have the table’s numbers', () => {
    expect(status.BAD_COMMUNICATION_ERROR).toBe(StatusCodes.BadCommunicationError.value >>> 0);
    expect(status.BAD_NO_COMMUNICATION).toBe(StatusCodes.BadNoCommunication.value >>> 0);
    expect(status.BAD_DATA_LOST).toBe(StatusCodes.BadDataLost.value >>> 0);
    expect(status.UNCERTAIN_LAST_USABLE_VALUE).toBe(StatusCodes.UncertainLastUsableValue.value >>> 0);
  });

  it('an overflow of a data value is 0x480 or 0x80, and stays good', () => {
    expect(status.overflowed(0x480)).toBe(true);
    expect(status.overflowed(0x80)).toBe(true);
    expect(status.severity(0x480)).toBe('good');
    expect(status.overflowed(0x400)).toBe(false);
    expect(status.overflowed(0)).toBe(false);
  });
});
