import type { Settings } from '../../model/line/line.ts';
import type { LineFile } from './schema.ts';

/** What holds where a line file says nothing (common practice, no source). */
export const settingDefaults = {
  minorStopMs: 600_000,
  rejamCartons: 10,
  askAfterMs: 20_000,
  atRate: { minutes: 3, share: 0.9 },
  trialCartons: 0,
  orderCertainMs: 20,
  planShare: 1,
  staleMs: 3_000,
  lostMs: 60_000,
  heartbeatMs: 10_000,
} as const;

/** Without a figure of its own a machine is taken to run no faster than a quarter above its highest target. */
export function rateMaxFor(targets: readonly number[]): number {
  return Math.ceil(Math.max(0, ...targets) * 1.25);
}

/** The settings in the model's units, with what the file leaves out. */
export function settingsOf(file: LineFile): Settings {
  const set = file.settings ?? {};
  const targets = file.sizes.flatMap(({ targets }) => Object.values(targets));
  const atRate = set.atRate ?? settingDefaults.atRate;
  return {
    minorStopMinutes: (set.minorStop ?? settingDefaults.minorStopMs) / 60_000,
    rejamCartons: set.rejamCartons ?? settingDefaults.rejamCartons,
    askAfterSeconds: (set.askAfter ?? settingDefaults.askAfterMs) / 1000,
    atRateMinutes: atRate.minutes,
    atRateShare: atRate.share,
    trialCartons: set.trialCartons ?? settingDefaults.trialCartons,
    orderCertainMs: set.orderCertain ?? settingDefaults.orderCertainMs,
    planShare: set.planShare ?? settingDefaults.planShare,
    staleSeconds: (set.stale ?? settingDefaults.staleMs) / 1000,
    lostSeconds: (set.lost ?? settingDefaults.lostMs) / 1000,
    heartbeatSeconds: (set.heartbeat ?? settingDefaults.heartbeatMs) / 1000,
    rateMax: set.rateMax ?? rateMaxFor(targets),
    ...(set.emergencyNumber === undefined ? {} : { emergencyNumber: set.emergencyNumber }),
  };
}
