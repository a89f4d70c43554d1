import type { Head } from '../../model/view/view.ts';
import type { Moment } from '../store/moment.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';
import { numbersOf } from './numbers.ts';

/** How the first panel of the blank looks and what it says. */
export interface Said {
  readonly look: 'rest' | 'abnormal' | 'emergency' | 'unseen';
  readonly mark: string;
  readonly title: string;
  readonly lines: readonly string[];
  /** Which numbers in title and lines are figures. */
  readonly of: readonly Numbered[];
}

/** What the head says: the line's state, or that nobody can say it now. */
export function saidOf(
  head: Head,
  view: Parameters<typeof words.screen.line.head.lines>[0],
  moment: Moment,
  told: Told,
): Said {
  const { line } = words.screen;
  if (moment.sight === 'lost' || moment.sight === 'never') return unseen(head, view, moment, told);
  return {
    look: lookOf(head),
    mark: markOf(head),
    title: line.head.title(head, told.now),
    lines: line.head.lines(view, told),
    of: numbersOf(head, view.rate, told.now),
  };
}

type Told = Parameters<typeof words.screen.line.head.lines>[1];

function unseen(
  head: Head,
  view: Parameters<typeof words.screen.line.head.lines>[0],
  moment: Moment,
  told: Told,
): Said {
  const { line } = words.screen;
  const silent = moment.lastAt === undefined ? 0 : Math.max(0, moment.clock - moment.lastAt);
  const answered = moment.clock - moment.silent;
  const unseenSince = head.kind === 'unknown' ? Math.min(head.since, answered) : answered;
  const gap = moment.cause === 'gateway' ? moment.clock - unseenSince : silent;
  const since = head.kind === 'unknown' && moment.cause !== 'gateway' && moment.cause !== 'tape';
  const of: readonly Numbered[] = since
    ? numbersOf(head, view.rate, moment.clock)
    : [['gap', line.minutesPast(gap)]];
  const by =
    moment.cause === 'gateway'
      ? line.head.gatewaySilent(gap, answered, told.zone)
      : moment.cause === 'tape'
        ? line.head.tapeSilent(silent, moment.lastAt, told.zone)
        : head.kind === 'unknown'
          ? { title: line.head.title(head, moment.clock), lines: line.head.lines(view, told) }
          : line.head.plcSilent(silent, moment.lastAt, told.zone);
  return { look: 'unseen', mark: 's-unseen', title: by.title, lines: by.lines, of };
}

function lookOf(head: Head): Said['look'] {
  if (head.kind === 'pressed') return 'emergency';
  if (head.kind === 'stopped') return 'abnormal';
  return head.kind === 'unknown' ? 'unseen' : 'rest';
}

export function markOf(head: Head): string {
  switch (head.kind) {
    case 'running':
      return head.pace === 'slow' ? 's-slow' : 's-running';
    case 'stopped':
      return 's-stopped';
    case 'starved':
      return 's-starved';
    case 'blocked':
      return 's-blocked';
    case 'changeover':
      return 's-changeover';
    case 'pause':
    case 'offShift':
      return 's-break';
    case 'pressed':
      return 's-emergency';
    case 'unknown':
      return 's-unseen';
  }
}
