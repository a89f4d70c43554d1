import type { Instant } from '../units/units.ts';
import { onCall } from './recipientRota.ts';
import { type NoticeHead, type RecipientSettings, stepsFor } from './recipients.ts';

/** Numbers of people whose access has ended: they are told of nothing, and nothing is handed over to them. */
export type ShutOff = ReadonlySet<string>;

export const NOBODY_SHUT_OFF: ShutOff = new Set();

/** The same without them. Plans and rotas go on naming them, so that a step that would have told them tells nobody. */
export function withoutShutOff(who: RecipientSettings, shutOff: ShutOff): RecipientSettings {
  if (shutOff.size === 0) return who;
  return { ...who, recipients: who.recipients.filter(({ person }) => !shutOff.has(person)) };
}

/** Somebody whom a step names, by number or as who is on call, and who is not told as their access has ended. */
export interface LeftOut {
  readonly person: string;
  /** The way by which they would have been told first. */
  readonly way: string;
  readonly step: number;
  readonly afterMinutes: number;
}

/** [NR1] Whom the steps for a notice name at a moment and leave out, each once. */
export function leftOut(
  who: RecipientSettings,
  notice: NoticeHead,
  { zone, at, shutOff }: { readonly zone: string; readonly at: Instant; readonly shutOff: ShutOff },
): readonly LeftOut[] {
  if (shutOff.size === 0) return [];
  const found = new Map<string, LeftOut>();
  for (const [step, { afterMinutes, tell }] of stepsFor(who, notice, zone, at).entries())
    for (const target of tell) {
      const rota = target.kind === 'rota' ? who.rotas.find(({ id }) => id === target.rota) : undefined;
      const person = target.kind === 'person' ? target.person : rota && onCall(rota, zone, at);
      const recipient = who.recipients.find((one) => one.person === person);
      const [way] = recipient?.ways ?? [];
      if (person === undefined || way === undefined || !shutOff.has(person) || found.has(person)) continue;
      found.set(person, { person, way, step, afterMinutes });
    }
  return [...found.values()];
}
