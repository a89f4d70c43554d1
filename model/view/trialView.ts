import { FIRST_SETTINGS } from '../notices/settings.ts';
import { between, type EpochMs, type Millis, millis, minutes, type Span } from '../units/units.ts';
import type { Matter } from './matter.ts';
import { usualChangeover } from './ordersView.ts';
import { ms, type Seen } from './seen.ts';

/** [CH5] Since when what a changeover's line produces are trial cartons by its tag alone, so that it can never come to its rate. */
export function trialSince({ state }: Pick<Seen, 'state'>): EpochMs | undefined {
  const { changeover, trialSince: since } = state;
  return changeover === null || changeover.productionBack === null ? undefined : ms(since);
}

/** [CH5] Told once the changeover lasts longer than one of its kind usually does. */
export function stillTrial(seen: Seen): Matter[] {
  const since = trialSince(seen);
  const { changeover } = seen.state;
  if (since === undefined || changeover === null) return [];
  const lasted = millis(between(changeover.begin, seen.now));
  return lasted > usualOf(seen) ? [{ kind: 'stillTrial', since, lasted }] : [];
}

/** By the earlier ones of its kind; while too few were seen, by what the notice about a long changeover goes by. */
function usualOf(seen: Seen): Millis {
  const { changeover, noticeSettings } = seen.state;
  const { kind, from, to } = changeover!;
  const rule = (noticeSettings?.settings ?? FIRST_SETTINGS).when.changeover;
  return usualChangeover(seen, kind, from, to) ?? millis(minutes(rule.minutes) as Span);
}
