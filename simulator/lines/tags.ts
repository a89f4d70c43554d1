import { conditions, countingStations, foldingStations, guards, rejects, tagName } from './cartoner.ts';
import { devicesOf, encodersOf, positionsOf, type Variant } from './variant.ts';

/** Type of a tag in the PLC, named as OPC UA names it. */
export type TagType = 'Boolean' | 'UInt16' | 'Int32' | 'UInt32' | 'Float' | 'Double' | 'String';

/** One tag of the simulated PLC, and the role a line file gives it. */
export interface Tag {
  readonly role: string;
  readonly of?: string;
  readonly tag: string;
  readonly type: TagType;
  /** Counters only: bits before it rolls over. */
  readonly width?: 16 | 32;
}

const counter = (role: string, tag: string, width: 16 | 32, of?: string): Tag => ({
  role,
  ...(of === undefined ? {} : { of }),
  tag,
  type: width === 16 ? 'UInt16' : 'UInt32',
  width,
});

const plain = (role: string, tag: string, type: TagType, of?: string): Tag => ({
  role,
  ...(of === undefined ? {} : { of }),
  tag,
  type,
});

/** Every tag a variant has, in the order of the line file. */
export function tagsOf(variant: Variant): readonly Tag[] {
  return [...controlTags(variant), ...countTags(variant), ...peopleTags(variant), ...processTags(variant)];
}

function controlTags(variant: Variant): Tag[] {
  return [
    ...(variant.stateTag ? [plain('state', 'Cartoner.State', 'Int32')] : []),
    plain('mode', 'Cartoner.Mode', 'Int32'),
    ...(variant.firstOut ? [plain('stopReason', 'Cartoner.FirstOut', 'Int32')] : []),
    plain('alarmNumber', 'Cartoner.AlarmNumber', 'Int32'),
    plain('alarmText', 'Cartoner.AlarmText', 'String'),
  ];
}

function countTags(variant: Variant): Tag[] {
  return [
    counter('cycleCount', 'Cartoner.Cycles', 32),
    counter('goodCount', 'Discharge.Good', 32),
    ...rejects.map(({ id, tag }) => counter('rejectCount', tag, 16, id)),
    counter('pickedCount', 'Pick.Blanks', 32),
    counter('missedPickCount', 'Pick.Missed', 16),
    ...positionsOf(variant).map(({ id }) => counter('notLoadedCount', notLoadedTag(id), 16, id)),
    ...countingStations.map(({ id }) =>
      counter('presentedCount', presentedTag(id), id === 'discharge' ? 32 : 16, id),
    ),
    ...countingStations.map(({ id }) => counter('crushedCount', clearedTag(id), 16, id)),
    ...(variant.nearMisses
      ? foldingStations.map(({ id }) => counter('nearMissCount', nearMissTag(id), 16, id))
      : []),
  ];
}

function peopleTags(variant: Variant): Tag[] {
  const devices = devicesOf(variant);
  return [
    ...devices.map(({ id, tag }) => plain('stopDevice', tag, 'Boolean', id)),
    ...(variant.twins ? devices.map(({ id, twinTag }) => counter('stopDeviceCount', twinTag, 16, id)) : []),
    ...guards.map(({ id, tag }) => plain('guard', tag, 'Boolean', id)),
  ];
}

function processTags(variant: Variant): Tag[] {
  return [
    plain('speedSet', 'Cartoner.SpeedSet', 'Double'),
    plain('speedActual', 'Cartoner.SpeedActual', 'Double'),
    plain('size', 'Cartoner.Size', 'UInt16'),
    plain('order', 'Cartoner.Order', 'String'),
    plain('lot', 'Magazine.BoardLot', 'String'),
    ...(variant.trialTag ? [plain('trial', 'Cartoner.Trial', 'Boolean')] : []),
    ...encodersOf(variant).map(({ number, tag }) => plain('adjustment', tag, 'Double', number)),
    plain('starved', 'Cartoner.Starved', 'Boolean'),
    plain('blocked', 'Cartoner.Blocked', 'Boolean'),
    plain('machineAngle', 'Cartoner.AngleAtStop', 'Double'),
    ...conditions.map(({ id, tag }) => plain('condition', tag, 'Float', id)),
    plain('programVersion', 'Cartoner.ProgramVersion', 'String'),
    plain('enabling', 'Cartoner.Enabling', 'Boolean'),
    plain('heartbeat', 'Cartoner.Heartbeat', 'UInt16'),
  ];
}

const presented = new Map(countingStations.map(({ id }) => [id, `${tagName(id)}.Count`]));

/** Tag that counts what is presented to a station. Looked up, for it is asked at every station of every cycle. */
export const presentedTag = (station: string): string => presented.get(station) ?? '';
/** Tag that counts cartons crushed at a station. */
export const clearedTag = (station: string): string => `${tagName(station)}.Cleared`;
/** Tag that counts what a station's own sensor saw go amiss. */
export const nearMissTag = (station: string): string => `${tagName(station)}.NearMisses`;
/** Tag that counts pockets left empty at a loading position. */
export const notLoadedTag = (position: string): string => `Loading.${tagName(position)}.NotLoaded`;
