import { z } from 'zod';
import type { BalanceAnswer } from '../../model/past/balanceAnswer.ts';
import { seenTime } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { list, moment, momentIfKnown, numberIfKnown, textIfKnown } from './viewParts.ts';

const count = z.number().int();
const bounds = z.strictObject({ least: count, most: count });

/** Blanks and cartons of a stretch, for whoever reads them by program. */
export const balanceAnswer = sameAs<BalanceAnswer>()(
  z.strictObject({
    seen: seenTime,
    counted: z.boolean(),
    parts: z
      .strictObject({
        from: moment,
        to: moment,
        before: count,
        picked: count,
        good: count,
        rejected: count,
        crushed: count,
        inPockets: count,
        takenOut: count,
        sample: count,
        byHand: count,
        broughtBack: count,
        unaccounted: count,
        notSeen: count,
      })
      .optional(),
    unknown: list(z.strictObject({ from: moment, to: moment })),
    step: z.enum(['hour', 'shift', 'day']),
    days: count,
    points: list(
      z.strictObject({
        from: moment,
        to: moment,
        name: textIfKnown,
        picked: numberIfKnown,
        unaccounted: numberIfKnown,
      }),
    ),
    changes: list(z.strictObject({ from: moment, to: moment, by: count, entered: count })),
    orders: z.strictObject({
      list: list(
        z.strictObject({
          number: z.string(),
          size: textIfKnown,
          blend: textIfKnown,
          from: moment,
          to: momentIfKnown,
          counted: bounds,
          handedOver: numberIfKnown,
          apart: bounds.optional(),
        }),
      ),
      further: count,
    }),
  }),
);
