import { describe, expect, it } from 'vitest';
import { LineFold } from '../../../model/fold/fold.ts';
import { stationLanes } from '../../../model/replay/stationLanes.ts';
import { windowView } from '../../../model/replay/window.ts';
import { epochMs } from '../../../model/units/units.ts';
import { at, changes, goods, type Rows, running, smallLine } from '../smallLine.ts';

const line = smallLine();
const rows: Rows = [
  ...running(),
  ...goods(1, 100, 1),
  [100.5, 'rejectOpen', 1],
  [120, 'state', 11],
  [120, 'reason', 51],
  [124.9, 'panel', true],
  [124.9, 'panelCount', 1],
  [140, 'door', true],
  [150, 'panel', false],
  [155, 'door', false],
  [180, 'state', 6],
  [180, 'reason', 0],
  ...goods(190, 300, 101),
];

function window(from: number, to: number) {
  const all = changes(line, rows);
  const fold = new LineFold(line);
  fold.take(all.filter((change) => change.at <= at(from)));
  const within = all.filter((change) => change.at > at(from) && change.at <= at(to));
  return { fold, within, view: windowView(fold, within, { from: at(from), to: at(to) }) };
}

describe('a window of a stretch', () => {
  it('[RP5] tells in order of line time what happened, what set it off first', () => {
    const { view } = window(90, 300);
    const told = view.happened.map((one) => [Math.round((one.at - epochMs(at(0))) / 100) / 10, one.kind]);
    expect(told).toEqual([
      [100.5, 'reject'],
      [120, 'stopBegan'],
      [120, 'firstFault'],
      [124.9, 'press'],
      [140, 'guardOpened'],
      [150, 'release'],
      [155, 'guardClosed'],
      [180, 'restarted'],
      [190, 'firstGood'],
    ]);
  });

  it('[RP5] has the machine’s states, stops, rejects and devices as long as they lasted', () => {
    const { view } = window(90, 300);
    const after = (moment: number) => (moment - epochMs(at(0))) / 1000;
    expect(view.states.map(({ from, to, state }) => [after(from), after(to), state])).toEqual([
      [90, 120, 'Execute'],
      [120, 180, 'Held'],
      [180, 300, 'Execute'],
    ]);
    expect(view.stops.map(({ from, to }) => [after(from), after(to)])).toEqual([[120, 180]]);
    expect(view.rejects.map(({ marks }) => marks.map((mark) => after(mark.at)))).toEqual([[100.5]]);
    expect(
      view.devices.map(({ kind, spans }) => [kind, spans.map(({ from, lasted }) => [after(from), lasted])]),
    ).toEqual([
      ['device', [[124.9, 25_100]]],
      ['guard', [[140, 15_000]]],
    ]);
    expect(view.unseen).toEqual([]);
  });

  it('[RP5] its rates add up to what was made, and are not told where nobody looked', () => {
    const { view } = window(90, 301);
    const made = view.rates.reduce<number>((sum, rate) => sum + (rate ?? 0) * (view.bucketMs / 60_000), 0);
    expect(Math.round(made)).toBe(10 + 111);
    const dark = changes(line, [...rows, [301, 'link', false], [400, 'link', true]]);
    const fold = new LineFold(line);
    fold.take(dark.filter((change) => change.at <= at(290)));
    const within = dark.filter((change) => change.at > at(290));
    const unseen = windowView(fold, within, { from: at(290), to: at(400) });
    expect(unseen.rates.filter((rate) => rate === null).length).toBeGreaterThan(40);
    expect(unseen.unseen.length).toBe(1);
  });

  it('what a station’s signals read begins with what they had read before it', () => {
    const { within } = window(90, 300);
    const fold = new LineFold(line);
    fold.take(changes(line, rows).filter((change) => change.at <= at(90)));
    const lanes = stationLanes(fold, within, { station: line.stations[0]!.id, from: at(90) });
    const state = lanes.find(({ role }) => role === 'state')!;
    expect(state.readings.map(({ after, means }) => [after, means])).toEqual([
      [0, 'Execute'],
      [30_000, 'Held'],
      [90_000, 'Execute'],
    ]);
  });
});
