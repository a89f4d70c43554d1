import type { LineView } from '../../../model/view/view.ts';
import { span, t } from './build.ts';

/** The shift until shortly after nine: how it began, and nine stops. */
export const morning = [
  span('changeover', '06:00:00', '06:24:00'),
  span('stopped', '06:29:10', '06:30:30', 2, 'missed pick'),
  span('stopped', '06:36:40', '06:37:30', 3, 'carton not square'),
  span('starved', '07:05:30', '07:06:35', 1, 'magazine empty'),
  span('stopped', '07:31:00', '07:31:45', 5, 'tuck jam'),
  span('safety', '07:48:20', '07:52:01', 7, 'loading front pressed'),
  span('stopped', '08:14:00', '08:14:38', 2, 'missed pick'),
  span('blocked', '08:40:30', '08:42:40', 11, 'conveyor full'),
  span('stopped', '09:02:00', '09:02:52', 9, 'flap not closed'),
];

/** What followed until a tuck jam at 10:40. */
export const beforeNoon = [
  span('pause', '09:30:00', '09:50:00', undefined, 'break'),
  span('stopped', '09:52:20', '09:53:50', 7, undefined, true),
  span('stopped', '10:21:50', '10:23:38', 5, 'tuck jam'),
  span('stopped', '10:31:15', '10:35:20', 5, 'tuck jam'),
  span('stopped', '10:40:00', undefined, 5, 'tuck jam'),
];

/** A press that caused its stop, and one made while the line stood. */
export const presses: LineView['trend']['presses'] = [
  {
    id: 'p1',
    device: 'loading-front',
    name: 'loading front',
    candidates: [],
    pressed: t('07:48:20'),
    released: t('07:50:40'),
    reset: t('07:51:30'),
    restarted: t('07:52:01'),
    firstGood: t('07:52:40'),
    role: 'caused',
    known: 'edge',
  },
  {
    id: 'p2',
    device: 'loading-back',
    name: 'loading back',
    candidates: [],
    pressed: t('10:32:40'),
    released: t('10:34:30'),
    reset: t('10:35:02'),
    restarted: t('10:35:20'),
    firstGood: t('10:35:55'),
    role: 'during',
    known: 'edge',
  },
];
