import { describe, expect, it } from 'vitest';
import {
  balance,
  cut,
  measure,
  plain,
  setLines,
  sizeThatFits,
  wrap,
} from '../../../dashboard/type/measure.ts';

describe('fitting text', () => {
  it('measures by the advance widths of the face', () => {
    expect(measure('0000', 100)).toBeCloseTo(222.4);
    expect(measure('mm', 10)).toBeCloseTo(16.66);
    expect(measure('−', 100)).toBeCloseTo(58.4);
  });

  it('measures bold runs as bold and their marks as nothing', () => {
    expect(measure('**ab**', 100)).toBeCloseTo(measure('ab', 100, true));
    expect(plain('target **44**, two')).toBe('target 44, two');
  });

  it('makes a line smaller until it fits, but no smaller than the least', () => {
    expect(sizeThatFits('1,234', 1000, 150, 40)).toBe(150);
    const size = sizeThatFits('1,234,567', 172, 150, 20, true);
    expect(size).toBeLessThan(150);
    expect(measure('1,234,567', size, true)).toBeLessThanOrEqual(172);
    expect(sizeThatFits('m'.repeat(99), 100, 50, 22)).toBe(22);
  });

  it('cuts with an ellipsis only where something is missing, and closes bold', () => {
    expect(cut('loading', 500, 22)).toBe('loading');
    const short = cut('**Verpackungslinie** Nord', 100, 22);
    expect(short.endsWith('…**')).toBe(true);
    expect(measure(short, 22)).toBeLessThanOrEqual(101);
  });

  it('wraps at words and keeps a word that is too long whole', () => {
    expect(wrap('isolate, lock out', 90, 22)).toEqual(['isolate,', 'lock out']);
    expect(wrap('Hauptbodenklappenverschluss', 10, 22)).toEqual(['Hauptbodenklappenverschluss']);
  });

  it('balances a name over two lines', () => {
    expect(balance('bottom major flap', 22)).toEqual(['bottom', 'major flap']);
    expect(balance('top flap capture', 22)).toEqual(['top flap', 'capture']);
    expect(balance('loading', 22)).toEqual(['loading']);
  });

  it('sets a phrase a line where that fits, and says whether anything is missing', () => {
    const set = setLines(['No stop for 21 min', 'eight short stops this shift'], {
      width: 680,
      most: 2,
      sizes: [44, 36],
    });
    expect(set).toEqual({
      size: 44,
      lines: ['No stop for 21 min,', 'eight short stops this shift'],
      whole: true,
    });
    const cutOff = setLines(['word '.repeat(60).trim()], { width: 300, most: 2, sizes: [44, 36] });
    expect(cutOff.whole).toBe(false);
    expect(cutOff.lines).toHaveLength(2);
    expect(cutOff.lines[1]?.endsWith('…')).toBe(true);
  });
});
