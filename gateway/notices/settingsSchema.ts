import { z } from 'zod';
import { NOTICE_LEVELS, type NoticeLevel } from '../../model/notices/recipients.ts';
import { type NoticeRules, SETTINGS_BOUNDS } from '../../model/notices/settings.ts';
import { sameAs } from '../api/sameAs.ts';
import { recipientsSchema } from './recipientsSchema.ts';

function within({ least, most }: { readonly least: number; readonly most: number }) {
  return z.number().min(least).max(most);
}

const bounds = SETTINGS_BOUNDS;
const on = z.boolean();
const level = z.enum(NOTICE_LEVELS as [NoticeLevel, ...NoticeLevel[]]);
const minutes = within(bounds.minutes);
const share = within(bounds.share);
const seconds = within(bounds.seconds);

const rules = sameAs<NoticeRules>()(
  z.strictObject({
    stops: z.strictObject({
      on,
      falseOnceInShifts: within(bounds.falseOnceInShifts),
      graceSeconds: within(bounds.graceSeconds),
    }),
    stopsCounted: z.strictObject({
      on,
      stops: within(bounds.stops).int(),
      within: z.discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('minutes'), minutes }),
        z.strictObject({ kind: z.literal('cartons'), cartons: within(bounds.cartons).int() }),
      ]),
    }),
    rejects: z.strictObject({ on }),
    loose: z.strictObject({ on, marks: within(bounds.marks).int() }),
    rate: z.strictObject({ on, share, minutes }),
    changeover: z.strictObject({ on, times: within(bounds.times), minutes }),
    lost: z.strictObject({ on, share, minutes }),
    press: z.strictObject({ on }),
    ranOn: z.strictObject({ on }),
    test: z.strictObject({ on, days: within(bounds.days) }),
    unseen: z.strictObject({ on, minutes }),
    server: z.strictObject({ on, seconds }),
    disk: z.strictObject({ on, leastMegabytes: within(bounds.megabytes) }),
    clock: z.strictObject({ on, seconds }),
    levels: z.strictObject({
      stops: level,
      stopsCounted: level,
      rejects: level,
      loose: level,
      rate: level,
      changeover: level,
      lost: level,
      press: level,
      ranOn: level,
      test: level,
      unseen: level,
      server: level,
      disk: level,
      clock: level,
    }),
    many: z.strictObject({ notices: within(bounds.notices).int(), minutes }),
    returnedHours: within(bounds.hours),
  }),
);

/** How notices are raised, and who is told, as a person sends it. */
export const settingsSchema = z.strictObject({ when: rules, who: recipientsSchema });
