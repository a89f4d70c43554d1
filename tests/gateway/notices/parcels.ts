import { parcelOf } from '../../../gateway/notices/notices.ts';
import type { Message, Parcel } from '../../../gateway/notices/ways/way.ts';

export const AT = Date.UTC(2026, 2, 3, 9, 0);

export function messageOf(notice: string, more: Partial<Message> = {}): Message {
  return {
    notice,
    line: 'line-3',
    lineName: 'Line 3',
    station: 'fold',
    stationName: 'Fold bottom flap',
    level: 'call',
    at: AT,
    zone: 'Europe/Berlin',
    what: 'Fold bottom flap jams more than it used to.',
    text: 'Fold bottom flap jams more than it used to.\nIsolate and lock out first.',
    link: 'https://line3.plant.example/notices/n1',
    round: 0,
    step: 0,
    ...more,
  };
}

export function parcel(notice: string, way = 'mail', person = '12', more: Partial<Message> = {}): Parcel {
  return parcelOf(messageOf(notice, more), { person, way }, AT);
}
