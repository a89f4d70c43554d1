import { z } from 'zod';
import type { AroundStop } from '../../model/past/around.ts';
import type { SignalMeaning } from '../../model/past/signalSheets.ts';
import type { Role } from '../../model/signals/signals.ts';
import { sameAs } from './sameAs.ts';
import { list, millis, moment, numberIfKnown, textIfKnown } from './viewParts.ts';

export const role = sameAs<Role>()(
  z.enum([
    'state',
    'mode',
    'stopReason',
    'alarmNumber',
    'alarmText',
    'cycleCount',
    'goodCount',
    'presentedCount',
    'rejectCount',
    'pickedCount',
    'missedPickCount',
    'notLoadedCount',
    'crushedCount',
    'nearMissCount',
    'stopDevice',
    'stopDeviceCount',
    'guard',
    'speedSet',
    'speedActual',
    'size',
    'crew',
    'order',
    'lot',
    'adjustment',
    'starved',
    'blocked',
    'machineAngle',
    'condition',
    'programVersion',
    'trial',
    'enabling',
    'muting',
    'heartbeat',
    'link',
    'entry',
  ]),
);

/** As the PLC tells it; null while it is not known. */
export const value = z.union([z.number(), z.boolean(), z.string(), z.null()]);

const lane = z.strictObject({
  id: z.string(),
  role,
  of: textIfKnown,
  kind: z.enum(['value', 'count', 'state']),
  unit: textIfKnown,
  decimals: z.number(),
  normal: z.tuple([z.number(), z.number()]).readonly().optional(),
  outside: z.boolean(),
  readings: list(z.strictObject({ after: millis, value, means: textIfKnown })),
  more: z.number(),
});

/** What the PLC told from 10 s before a stop's beginning to 10 s after it. */
export const aroundAnswer = sameAs<AroundStop>()(
  z.strictObject({
    stop: z.string(),
    at: moment,
    until: millis,
    lanes: list(lane),
    unmoved: list(lane),
    whole: z.boolean(),
  }),
);

/** What a signal means on its line. */
export const signalMeaning = sameAs<SignalMeaning>()(
  z.strictObject({
    id: z.string(),
    role,
    name: textIfKnown,
    place: z.enum(['line', 'devices', 'station']),
    station: textIfKnown,
    unit: textIfKnown,
    decimals: numberIfKnown,
    activeWhen: z.boolean(),
    values: z.record(z.string(), z.string()),
  }),
);
