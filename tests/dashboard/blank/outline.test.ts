import { describe, expect, it } from 'vitest';
import { type Blank, firstPanel, glueScore, outline, scores } from '../../../dashboard/blank/outline.ts';

const blank: Blank = {
  glue: 2,
  edges: [86, 806, 1162],
  top: 48,
  bottom: 252,
  slope: 26,
  flapsAbove: ['major', 'minor'],
  flapsBelow: ['none', 'none'],
  reach: 46,
};

describe('the blank', () => {
  it('is one closed outline with a round major flap, a narrowing minor one and a glue flap', () => {
    expect(outline(blank)).toBe(
      'M86 48L92 48V12Q92 2 104 2H788Q800 2 800 12V48L811 48L826 8H1142L1157 48L1162 48V252L86 252L2 226V74Z',
    );
  });

  it('is folded along scores between its panels and under its flaps', () => {
    expect(scores(blank)).toBe('M806 48V252M86 48H1162');
    expect(glueScore(blank)).toBe('M86 48V252');
    expect(firstPanel(blank)).toBe('M86 48H806V252H86L2 226V74Z');
  });
});
