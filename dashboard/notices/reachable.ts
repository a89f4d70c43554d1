import type { RecipientSettings } from '../../model/notices/recipients.ts';
import { type Asked, useAsked } from '../past/asked.ts';
import { usePart } from '../store/use.tsx';

/** Who is told seldom changes. */
const ASK_MS = 60_000;

interface HandedTo {
  readonly settings: { readonly who: RecipientSettings };
  readonly shutOff: readonly string[];
}

/** To whom a notice can be handed over: whom notices reach, but whoever has it, and those whose access has ended. */
export function useReachable(owner: string | undefined): {
  readonly people: readonly string[];
  readonly state: Asked<HandedTo>['state'];
} {
  const line = usePart('line').id;
  const { data, state } = useAsked<HandedTo>(
    `/api/lines/${encodeURIComponent(line)}/notices/settings`,
    ASK_MS,
  );
  const all = data?.settings.who.recipients.map(({ person }) => person) ?? [];
  return { people: all.filter((one) => one !== owner && !data?.shutOff.includes(one)), state };
}
