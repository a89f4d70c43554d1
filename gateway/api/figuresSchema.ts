import { z } from 'zod';
import { FIGURE_IDS, type FigureId, figureOf } from '../../model/figures/figures.ts';
import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import type { FigureValue } from '../../model/figures/figureValues.ts';
import { wordsIn } from '../../model/words/words.ts';
import { seenTime } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { list, momentIfKnown, numberIfKnown } from './viewParts.ts';

const { of: said } = wordsIn('en').screen.past.figures;

export const figureId = z
  .enum(FIGURE_IDS as [FigureId, ...FigureId[]])
  .describe(FIGURE_IDS.map((id) => `${id}: ${said[id].what}`).join('\n'));

export const figureValue = sameAs<FigureValue>()(
  z.strictObject({
    id: figureId,
    value: numberIfKnown,
    lower: numberIfKnown,
    upper: numberIfKnown,
    none: z
      .enum([
        'noTime',
        'noCartons',
        'noFailure',
        'noIdealRate',
        'byShift',
        'noCounter',
        'notSeen',
        'notKnown',
      ])
      .optional(),
  }),
);

export const figuresAnswer = sameAs<FiguresAnswer>()(
  z.strictObject({
    seen: seenTime,
    parts: z.number(),
    shifts: z.number(),
    first: momentIfKnown,
    last: momentIfKnown,
    values: list(figureValue),
    ideal: list(z.strictObject({ id: z.string(), name: z.string(), ideal: z.number() })),
    minorStopMinutes: z.number(),
  }),
);

/** One figure's definition, as the screens tell it. */
export const figureDefinition = z.strictObject({
  id: figureId,
  name: z.string(),
  unit: z.string(),
  kind: z.string(),
  what: z.string(),
  how: z.string(),
  source: z.string().optional(),
  rule: z.string().optional(),
  from: list(figureId),
  records: list(z.string()),
});

/** Every definition, for programs. */
export function figureDefinitions(): readonly z.infer<typeof figureDefinition>[] {
  return FIGURE_IDS.map((id) => {
    const { unit, kind, from, records, rule } = figureOf(id);
    return { id, unit, kind, from, records, ...(rule === undefined ? {} : { rule }), ...said[id] };
  });
}
