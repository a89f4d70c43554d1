import type { PastStatus } from '../past/overview.ts';
import type { SeenTime } from '../past/past.ts';
import { day, dayOfYear } from './clock.ts';
import { at, capital, count, exactly, lasted, locale, many, past } from './english-say.ts';
import { stationsWords } from './english-stations.ts';
import { safetyWords } from './english-safety.ts';
import { attributedWords } from './english-attributed.ts';
import { changeoversWords } from './english-changeovers.ts';
import { signalsWords } from './english-signals.ts';
import { figuresWords } from './english-figures.ts';
import { reportWords } from './english-report.ts';
import { maintenanceWords } from './english-maintenance.ts';
import { saidWords } from './english-said.ts';
import { replayWords } from './english-replay.ts';
import { setPointsWords } from './english-setpoints.ts';
import { stopsWords } from './english-stops.ts';

const on = (moment: number, zone: string) => day(moment, zone, locale);
const when = (moment: number, zone: string) => `${on(moment, zone)} ${at(moment, zone)}`;

/** Sentences of the screens that look back. */
export const pastWords = {
  screens: {
    stations: 'Stations',
    maintenance: 'Maintenance',
    stops: 'Stops',
    'safety-stops': 'Safety stops',
    changeovers: 'Changeovers',
    setpoints: 'Set points',
    replay: 'Replay',
    figures: 'Figures',
    report: 'Report',
    signals: 'Signals',
  },
  on,
  when,
  at,
  exactly,
  printed: (moment: number, zone: string) =>
    `Printed ${dayOfYear(moment, zone, locale)}, ${at(moment, zone)}; Scoreline shows and makes no stop.`,
  lasted,
  past,
  count,
  asking: 'Asking the gateway …',
  noAnswer: 'The gateway does not answer; what is shown is what it said last.',
  refused: (trouble: string) => `The gateway could not answer: ${trouble}`,

  period: {
    label: 'Which time',
    shift: 'this shift',
    last: 'last shift',
    day: 'last 24 hours',
    week: 'last 7 days',
    month: 'last 30 days',
    on: (name: string, moment: number, zone: string) => `${name}, ${on(moment, zone)}`,
    span: (from: number, to: number, now: number, zone: string) =>
      `${when(from, zone)} to ${now - to < 90_000 ? 'now' : when(to, zone)}`,
  },
  all: { sizes: 'all sizes', shifts: 'all shifts', stations: 'all stations', orders: 'all orders' },
  station: (number: number, name: string) => `${number} ${name}`,
  noStation: 'at no one station',

  /** What is not in the figures for want of sight. */
  seen: ({ from, to, since, unknown }: SeenTime, zone: string) => {
    const parts = [
      ...(since === undefined ? [] : [`There are records from ${when(since, zone)} on.`]),
      ...(unknown > 0
        ? [
            `Not seen for ${past(unknown)} of ${past(to - from)}: that time is left out, and not counted as running.`,
          ]
        : []),
    ];
    return parts.length > 0 ? parts.join(' ') : `Seen for all of ${past(to - from)}.`;
  },

  making: (status: PastStatus, zone: string): string | undefined => {
    switch (status.kind) {
      case 'history':
        return status.done === 0
          ? 'The days before are being filled in.'
          : `The days before are being filled in: up to ${when(status.until, zone)} so far. What is shown lacks the rest.`;
      case 'records':
        return `The records are being made anew: up to ${when(status.until, zone)} so far. Until then the old ones are shown.`;
      case 'failed':
        return 'The records of the past could not be made whole; the log says why. What is shown may lack some of it.';
      case 'stopped':
      case 'whole':
        return undefined;
    }
  },
  stopMaking: 'Leave it at that',
  stations: stationsWords,
  stops: stopsWords,
  changeovers: changeoversWords,
  signals: signalsWords,
  safety: safetyWords,
  figures: figuresWords,
  report: reportWords,
  attributed: attributedWords,
  maintenance: maintenanceWords,
  said: saidWords,
  setPoints: setPointsWords,
  replay: replayWords,
  capital,
  many,
} as const;
