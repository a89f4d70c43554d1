import { DataType } from 'node-opcua';
import { describe, expect, it } from 'vitest';
import { understand } from '../../../gateway/intake/values.ts';

const scalar = (dataType: DataType, value: unknown) => ({ dataType, scalar: true, value });

describe('understanding a value', () => {
  it('takes numbers, Booleans and texts as they are', () => {
    expect(understand(scalar(DataType.Int16, -3), 0, 'number')).toEqual({
      value: -3,
      status: 0,
      wrongType: false,
    });
    expect(understand(scalar(DataType.Boolean, true), 0, 'boolean').value).toBe(true);
    expect(understand(scalar(DataType.String, 'tuck jam'), 0, 'text').value).toBe('tuck jam');
    expect(understand(scalar(DataType.LocalizedText, { text: 'jam' }), 0, 'text').value).toBe('jam');
    expect(understand(scalar(DataType.UInt32, 4711), 0, 'text').value).toBe('4711');
  });

  it('keeps 64-bit numbers exactly up to 2^53, and calls what is beyond bad', () => {
    expect(understand(scalar(DataType.UInt64, [2, 5]), 0, 'number').value).toBe(2 ** 33 + 5);
    expect(understand(scalar(DataType.Int64, [0xffffffff, 0xfffffffe]), 0, 'number').value).toBe(-2);
    expect(understand(scalar(DataType.UInt64, [0x1fffff, 0xffffffff]), 0, 'number').value).toBe(2 ** 53 - 1);
    expect(understand(scalar(DataType.UInt64, [0x200000, 0]), 0, 'number')).toEqual({
      value: null,
      status: 0x803c0000,
      wrongType: false,
    });
  });

  it('calls what is no finite number bad', () => {
    expect(understand(scalar(DataType.Float, Number.NaN), 0, 'number')).toMatchObject({
      value: null,
      status: 0x803c0000,
    });
  });

  it('makes a value of the wrong type unknown', () => {
    for (const [wire, type] of [
      [scalar(DataType.Int32, 1), 'boolean'],
      [scalar(DataType.Boolean, true), 'number'],
      [scalar(DataType.String, '1'), 'number'],
      [{ dataType: DataType.Int32, scalar: false, value: new Int32Array([1]) }, 'number'],
    ] as const) {
      expect(understand(wire, 0, type)).toEqual({ value: null, status: 0x80740000, wrongType: true });
    }
  });

  it('makes arrays and structures text, uncertain', () => {
    const array = { dataType: DataType.Int32, scalar: false, value: new Int32Array([1, 2]) };
    expect(understand(array, 0, 'text')).toEqual({ value: '[1,2]', status: 0x40000000, wrongType: true });
    const structure = scalar(DataType.ExtensionObject, { value: 3, unit: 'mm' });
    expect(understand(structure, 0, 'text').value).toBe('{"value":3,"unit":"mm"}');
  });

  it('keeps the server’s status: bad without a value, and the bit of a queue that overflowed', () => {
    expect(understand(undefined, 0x80050000, 'number')).toEqual({
      value: null,
      status: 0x80050000,
      wrongType: false,
    });
    expect(understand(scalar(DataType.Int32, 7), 0x480, 'number')).toEqual({
      value: 7,
      status: 0x480,
      wrongType: false,
    });
  });
});
