import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import type { Line } from '../../model/line/line.ts';
import type { ShutOff } from '../../model/notices/shutOff.ts';
import { wordsIn } from '../../model/words/words.ts';
import { createQuota, type Quota } from '../live/quota.ts';
import { conflict, Refused } from '../people/refusals.ts';
import type { WaysOut } from './notices.ts';
import { PAGE } from './telling.ts';
import type { Pages } from './pages.ts';
import { person, way } from './recipientsSchema.ts';
import { type Message, type Parcel, whyInWords } from './ways/way.ts';

const words = wordsIn('en').ways.trial;

/** Who gets a trial, and by which way. */
export const trialBody = z.strictObject({ person, way });
export const trialAnswer = z.strictObject({
  ok: z.literal(true),
  /** Whether the receiver took it; of an open page, whether one is open. */
  arrived: z.boolean(),
  said: z.string(),
});

/** So many trials at once and a minute: of all people together, and to one person. */
const OF_ALL = { burst: 10, perMinute: 10 };
const OF_ONE = { burst: 3, perMinute: 2 };
/** Of so many people it is known how many they had. */
const PEOPLE_KNOWN = 200;

export interface TrialParts {
  readonly notices: WaysOut['notices'];
  readonly pages: Pages;
  readonly shutOff: () => ShutOff;
  readonly now: () => number;
}

/**
 * Sends a message that says of itself that it is a trial: once, at once, and to be heard of at once. It is no notice: nothing
 * of it is on the tape, it waits in no outbox, and is not tried again.
 */
export class Trials {
  private readonly parts: TrialParts;
  private readonly all: Quota;
  private readonly ofOne = new Map<string, Quota>();

  constructor(parts: TrialParts) {
    this.parts = parts;
    this.all = createQuota(OF_ALL, parts.now);
  }

  async send(
    to: { readonly person: string; readonly way: string },
    line: Pick<Line, 'id' | 'name' | 'zone'>,
    screens: string,
  ): Promise<z.infer<typeof trialAnswer>> {
    const { pages, shutOff, now } = this.parts;
    const notices = this.parts.notices();
    if (shutOff().has(to.person)) throw conflict(words.shutOff(to.person));
    if (to.way === PAGE) {
      const arrived = pages.isOpenFor(to.person);
      return { ok: true, arrived, said: arrived ? words.pageOpen : words.pageClosed };
    }
    if (!this.quotaOf(to.person).take() || !this.all.take()) throw new Refused(429, words.tooMany);
    const parcel: Parcel = {
      id: randomUUID(),
      ...to,
      offeredAt: now(),
      message: messageOf(line, notices?.ways.screens ?? screens, now()),
    };
    const outcome = notices ? await notices.outbox.trial(parcel) : undefined;
    if (outcome?.kind === 'told') return { ok: true, arrived: true, said: words.arrived };
    const why = whyInWords(outcome?.why ?? { trouble: 'noWay' });
    return { ok: true, arrived: false, said: words.notArrived(why) };
  }

  private quotaOf(to: string): Quota {
    const known = this.ofOne.get(to) ?? createQuota(OF_ONE, this.parts.now);
    // whoever had one last is known longest
    this.ofOne.delete(to);
    this.ofOne.set(to, known);
    if (this.ofOne.size > PEOPLE_KNOWN) this.ofOne.delete(this.ofOne.keys().next().value!);
    return known;
  }
}

function messageOf(
  { id, name, zone }: Pick<Line, 'id' | 'name' | 'zone'>,
  screens: string,
  at: number,
): Message {
  return {
    ...{ notice: 'trial', line: id, lineName: name, level: 'note', at: Math.round(at), zone },
    ...{ what: words.what, text: words.text(name), link: `${screens}notices/settings`, round: 0, step: 0 },
    trial: true,
  };
}
