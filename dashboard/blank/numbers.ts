import type { Head, RateView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';

const { line } = words.screen;

/** Which numbers of the head's sentence are figures, by the words that stand for them. */
export function numbersOf(head: Head, rate: RateView, now: number): readonly Numbered[] {
  const long = 'since' in head ? Math.max(0, now - head.since) : 0;
  switch (head.kind) {
    case 'running':
      return runningNumbers(head, rate, long);
    case 'stopped':
      return [
        ['stood', line.roughly(long)],
        ['together', line.head.often(head)],
        ['tries', line.count(head.attempt)],
      ];
    case 'starved':
    case 'blocked':
      return [['stood', line.roughly(long)]];
    case 'changeover':
      return [['sinceChangeover', line.roughly(long)]];
    case 'pause':
      return [['pauseOver', line.duration(Math.max(0, now - head.allowanceEnds))]];
    case 'unknown':
      return [['gap', line.minutesPast(long)]];
    case 'pressed':
    case 'offShift':
      return [];
  }
}

function runningNumbers(
  head: Extract<Head, { kind: 'running' }>,
  { running, target }: RateView,
  long: number,
): readonly Numbered[] {
  const without: Numbered = ['sinceStop', line.minutesPast(long)];
  if (head.pace === 'atRate' || running === undefined || target === undefined)
    return [without, ['shortStops', line.small(head.shortStopsThisShift)]];
  return [['minuteRunning', line.count(running)], ['target', line.count(target)], without];
}
