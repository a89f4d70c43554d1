import { z } from 'zod';
import { NOTICE_KINDS } from '../../model/notices/notice.ts';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import type { Tried } from '../../model/notices/tried.ts';
import { UNTOLD_WHYS } from '../../model/notices/triedKinds.ts';
import type { NoticesView } from '../../model/view/noticesView.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Author } from '../../model/entries/entries.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { author, noticeView } from '../api/noticeViewSchema.ts';
import { answer, asked, inPath, json, line } from '../api/openApiParts.ts';
import { sameAs } from '../api/sameAs.ts';
import { list, millis, moment } from '../api/viewParts.ts';
import { trialAnswer, trialBody } from './trial.ts';
import { settingsSchema } from './settingsSchema.ts';

const words = wordsIn('en').notices.describe;

/** Notices of so many days are listed. */
export const DAYS = 30;
export const daysQuery = z.strictObject({ days: z.coerce.number().int().min(1).max(60).default(DAYS) });

/** What the list of notices says: those that ended are the newest first. */
export interface NoticeList extends Pick<NoticesView, 'open' | 'ended'> {
  readonly days: number;
  readonly counts: {
    readonly raised: number;
    readonly found: number;
    readonly nothing: number;
    readonly unsaid: number;
    readonly never: number;
  };
}

/** The settings in use; by whom, when and why they were chosen, where somebody has. */
export interface SettingsTold {
  readonly settings: NoticeSettings;
  readonly at: EpochMs | undefined;
  readonly by: Author | undefined;
  readonly why: string | undefined;
  /** Numbers of those who are set to be told and are not: their access has ended. */
  readonly shutOff: readonly string[];
}

const noticeList = sameAs<NoticeList>()(
  z.strictObject({
    days: z.number(),
    open: list(noticeView),
    ended: list(noticeView),
    counts: z.strictObject({
      raised: z.number(),
      found: z.number(),
      nothing: z.number(),
      unsaid: z.number(),
      never: z.number(),
    }),
  }),
);

const settingsTold = z.strictObject({
  settings: settingsSchema,
  at: moment.optional(),
  by: author.optional(),
  why: z.string().optional(),
  shutOff: list(z.string()),
});

/** Settings that are tried before anybody saves them. */
export const triedBody = z.strictObject({ settings: settingsSchema });

/** The answer to what the settings would have done. */
export const tried = sameAs<Tried>()(
  z.strictObject({
    from: moment,
    to: moment,
    shifts: z.number(),
    seen: millis,
    of: millis,
    inUse: z.number(),
    rows: list(
      z.strictObject({
        falseOnceInShifts: z.number(),
        notices: list(
          z.strictObject({
            at: moment,
            station: z.string(),
            became: z.enum(['found', 'nothing', 'unsaid']),
          }),
        ),
        found: z.number(),
        nothing: z.number(),
        unsaid: z.number(),
        falseExpected: z.number(),
        missed: z.number(),
        later: millis.optional(),
      }),
    ),
    ofKinds: z.strictObject({
      kinds: list(
        z.strictObject({
          kind: z.enum(NOTICE_KINDS),
          said: z.discriminatedUnion('kind', [
            z.strictObject({ kind: z.literal('off') }),
            z.strictObject({ kind: z.literal('counted'), notices: z.number(), joined: z.number() }),
            z.strictObject({ kind: z.literal('untold'), why: z.enum(UNTOLD_WHYS) }),
          ]),
          raised: z.number(),
        }),
      ),
      people: list(z.strictObject({ person: z.string(), notices: z.number() })),
      nobody: z.number(),
    }),
  }),
);

/** The notices of a line, by address. */
export function lineNoticesPaths(): Readonly<Record<string, unknown>> {
  const path = '/api/lines/{line}/notices';
  const get = (operation: object, more: readonly object[] = []) => ({
    get: { ...operation, parameters: [line, ...more] },
  });
  return {
    [path]: get(answer(words.list, noticeList)),
    [`${path}/one/{notice}`]: get(answer(words.one, noticeView), [inPath('notice')]),
    [`${path}/settings`]: get(answer(words.settings, settingsTold)),
    [`${path}/trial`]: {
      post: {
        ...answer(wordsIn('en').ways.describe.trial, trialAnswer),
        parameters: [line],
        requestBody: { required: true, content: json(trialBody) },
      },
    },
    [`${path}/tried`]: {
      ...get(answer(words.tried, tried), asked(daysQuery)),
      post: {
        ...answer(words.triedDraft, tried),
        parameters: [line, ...asked(daysQuery)],
        requestBody: { required: true, content: json(triedBody) },
      },
    },
  };
}
