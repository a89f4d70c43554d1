import type { StopGroup, StopRow, StopsPast } from '../../model/past/stopsPast.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';

const { count, past: long } = words.screen.past;

/** Numbers of the heading's answer: all stops, then what took most and how it compares. */
export function leadNumbers(stops: StopsPast): readonly Numbered[] {
  const { own, outside, unknown } = stops;
  const [first] = [...own.rows, ...outside.rows, ...unknown.rows];
  const most = own.rows[0] ?? first;
  return [
    ['stops', count(stops.stops)],
    ['stood', long(stops.stood)],
    ['stood', long(own.stood)],
    ['stood', long(outside.stood)],
    ...(most ? ([['stood', long(stoodOf(most))], ...ordinaryNumbers(most)] as const) : []),
    ['unexplained', count(unknown.stops)],
  ];
}

/** How far a row is from what is ordinary. */
function ordinaryNumbers(row: StopRow): readonly Numbered[] {
  if (row.ordinary === undefined) return [];
  return [['ordinaryStops', long(Math.abs(stoodOf(row) - row.ordinary))]];
}

export function groupNumbers({ stops, stood, long: longer }: StopGroup): readonly Numbered[] {
  return [
    ['stops', count(stops)],
    ['stood', long(stood)],
    ['stops', count(longer.stops)],
    ['stood', long(longer.stood)],
  ];
}

export function stoodOf({ minor, long: longer }: StopRow): number {
  return minor.stood + longer.stood;
}
