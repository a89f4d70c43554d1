import { z } from 'zod';
import type { Author } from '../../model/entries/entries.ts';
import { DONE, FOUND } from '../../model/notices/answers.ts';
import { type LookFirst, NOTICE_KINDS, type NoticeFacts, TOLD_WHYS } from '../../model/notices/notice.ts';
import { NOTICE_LEVELS, type NoticeLevel } from '../../model/notices/recipients.ts';
import type { NoticesView, NoticeView, SaidView } from '../../model/view/noticesView.ts';
import { sameAs } from './sameAs.ts';
import { list, millis, moment, momentIfKnown, numberIfKnown, textIfKnown } from './viewParts.ts';

export const author = sameAs<Author>()(
  z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('position'), position: z.string() }),
    z.strictObject({ kind: z.literal('screen'), screen: z.string() }),
    z.strictObject({ kind: z.literal('person'), number: z.string() }),
    z.strictObject({ kind: z.literal('file'), file: z.string() }),
    z.strictObject({ kind: z.literal('itself') }),
  ]),
);

const kind = z.enum(NOTICE_KINDS);
const level = z.enum(NOTICE_LEVELS as [NoticeLevel, ...NoticeLevel[]]);

const facts = sameAs<NoticeFacts>()(
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('stops'),
      stops: z.number(),
      cartons: z.number(),
      from: moment,
      usualCartons: z.number(),
      onceInShifts: z.number(),
      tries: numberIfKnown,
      fault: textIfKnown,
    }),
    z.strictObject({
      kind: z.literal('stopsCounted'),
      stops: z.number(),
      minutes: numberIfKnown,
      cartons: numberIfKnown,
      from: moment,
      fault: textIfKnown,
    }),
    z.strictObject({
      kind: z.literal('rejects'),
      rule: z.enum(['run', 'drift']),
      rejects: z.number(),
      of: z.number(),
      expected: z.number(),
      onceInShifts: z.number(),
    }),
    z.strictObject({
      kind: z.literal('rate'),
      perMinute: z.number(),
      target: z.number(),
      minutes: z.number(),
      since: moment,
      most: textIfKnown,
    }),
    z.strictObject({
      kind: z.literal('changeover'),
      lasted: millis,
      allowed: millis,
      by: z.enum(['earlier', 'setting']),
      from: textIfKnown,
      to: textIfKnown,
    }),
    z.strictObject({
      kind: z.literal('lost'),
      lost: z.number(),
      planned: z.number(),
      most: textIfKnown,
      mostLost: z.number(),
    }),
    z.strictObject({
      kind: z.literal('press'),
      press: z.string(),
      device: z.string(),
      role: z.enum(['caused', 'during', 'uncertain']),
      candidates: list(z.string()),
    }),
    z.strictObject({
      kind: z.literal('ranOn'),
      finding: z.string(),
      of: z.enum(['guard', 'device']),
      name: z.string(),
    }),
    z.strictObject({
      kind: z.literal('test'),
      devices: list(z.strictObject({ device: z.string(), name: z.string(), last: momentIfKnown })).optional(),
      everyDays: z.number(),
      device: textIfKnown,
      name: textIfKnown,
      last: momentIfKnown,
    }),
    z.strictObject({ kind: z.literal('unseen'), since: moment }),
    z.strictObject({ kind: z.literal('server'), server: z.string(), since: moment }),
    z.strictObject({ kind: z.literal('disk'), freeBytes: z.number(), leastBytes: z.number() }),
    z.strictObject({
      kind: z.literal('loose'),
      adjustment: z.string(),
      name: z.string(),
      unit: z.string(),
      decimals: z.number(),
      left: z.number(),
      reads: z.number(),
      book: numberIfKnown,
      since: moment,
    }),
    z.strictObject({ kind: z.literal('clock'), server: z.string(), offset: millis, most: millis }),
    z.strictObject({ kind: z.literal('many'), count: z.number(), within: millis }),
  ]),
);

const look = sameAs<LookFirst>()(
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('readScale'),
      adjustment: z.string(),
      name: z.string(),
      entered: numberIfKnown,
      at: momentIfKnown,
      unit: z.string(),
      decimals: z.number(),
    }),
    z.strictObject({
      kind: z.literal('offBook'),
      adjustment: z.string(),
      name: z.string(),
      reads: z.number(),
      book: z.number(),
      unit: z.string(),
      decimals: z.number(),
      moved: momentIfKnown,
    }),
    z.strictObject({
      kind: z.literal('condition'),
      name: z.string(),
      reads: z.number(),
      low: z.number(),
      high: z.number(),
      unit: z.string(),
    }),
    z.strictObject({ kind: z.literal('fault'), name: z.string(), times: z.number(), of: z.number() }),
  ]),
);

const target = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('person'), person: z.string() }),
  z.strictObject({ kind: z.literal('rota'), rota: z.string() }),
]);

const said = sameAs<SaidView>()(
  z.strictObject({
    at: moment,
    by: author,
    found: z.enum(FOUND),
    done: z.enum(DONE),
    words: textIfKnown,
  }),
);

export const noticeView = sameAs<NoticeView>()(
  z.strictObject({
    id: z.string(),
    kind,
    level,
    state: z.enum(['raised', 'taken', 'returned', 'shelved', 'ended']),
    at: moment,
    since: moment,
    facts,
    station: z
      .strictObject({ id: z.string(), number: z.number(), name: z.string(), drawing: z.string() })
      .optional(),
    size: textIfKnown,
    stop: textIfKnown,
    look: list(look),
    joined: list(z.strictObject({ at: moment, kind, station: textIfKnown, facts: facts.optional() })),
    joinedMore: z.number(),
    taken: z.strictObject({ at: moment, by: author }).optional(),
    hasAt: momentIfKnown,
    owner: textIfKnown,
    ownerShutOff: z.boolean(),
    normalAt: momentIfKnown,
    shelved: z.strictObject({ at: moment, until: moment, by: author, words: z.string() }).optional(),
    round: z.number(),
    told: list(
      z.strictObject({
        at: moment,
        person: z.string(),
        way: z.string(),
        round: z.number(),
        step: z.number(),
        failed: z.boolean(),
        why: z.enum(TOLD_WHYS).exactOptional(),
      }),
    ),
    coming: list(
      z.strictObject({ at: moment, step: z.number(), tell: list(target), leftOut: list(z.string()) }),
    ),
    ended: z
      .strictObject({
        at: moment,
        how: z.enum(['closed', 'normal', 'never']),
        by: author.optional(),
        said: said.optional(),
        corrections: list(z.strictObject({ at: moment, by: author, why: textIfKnown, before: said })),
        correctable: textIfKnown,
      })
      .optional(),
    story: list(
      z.strictObject({
        at: moment,
        what: z.enum([
          'raised',
          'joined',
          'taken',
          'takenOver',
          'handed',
          'shelved',
          'unshelved',
          'escalated',
          'normal',
          'again',
          'closed',
          'corrected',
          'withdrawn',
          'reopened',
          'ended',
        ]),
        by: author.nullable(),
        detail: z.string().nullable(),
      }),
    ),
  }),
);

export const noticesView = sameAs<NoticesView>()(
  z.strictObject({
    open: list(noticeView),
    counts: z.strictObject({ open: z.number(), untaken: z.number(), shelved: z.number() }),
    further: z.number(),
    ended: list(noticeView),
  }),
);
