import { after, type Instant, minutes, type Span } from '../../model/units/units.ts';
import { type PauseWindow, pauseWindows } from '../calendar/windows.ts';
import { buttonsOf } from '../lines/variant.ts';
import { stopByPanel } from './halts.ts';
import { inSeconds, type Plant, record, type Script } from './plant.ts';
import { abort, press, release, reset, startUp } from './presses.ts';
import { chance, type Draw, normal, stream, uniform } from './random.ts';

/** A planned pause as this crew will take it. */
export interface PlannedBreak {
  readonly rule: string;
  readonly at: Instant;
  readonly latest: Instant;
  readonly lasts: Span;
}

/** The next break after a moment; a relief crew runs through some of them. Each has its own stream, so one does not move another. */
export function nextBreak(plant: Plant, from: Instant): PlannedBreak | undefined {
  const { calendar, zone, seed } = plant.options;
  for (const window of pauseWindows(calendar, zone, from, after(from, minutes(3 * 24 * 60)))) {
    const draw = stream(seed, `break ${window.from}`);
    if (chance(draw, 0.08)) continue;
    const planned = plan(window, draw);
    if (planned.at > from) return planned;
  }
  return undefined;
}

function plan(window: PauseWindow, draw: Draw): PlannedBreak {
  const latest = after(window.to, (-window.allowance * 1.1) as Span);
  const at = uniform(draw, window.from + minutes(4), latest - minutes(4));
  const lasts = window.allowance * Math.min(1.5, Math.max(0.7, 0.98 + 0.12 * normal(draw)));
  return { rule: window.rule, at: Math.round(at) as Instant, latest, lasts: Math.round(lasts) as Span };
}

/** The crew leaves; the PLC knows only that somebody stopped the machine at the panel. */
export function* takeBreak(plant: Plant, planned: PlannedBreak): Script {
  const draw = plant.draw.breaks;
  const begin = plant.now;
  plant.pause = { rule: planned.rule, begin };
  yield* stopByPanel(plant, 'break');
  const back = after(begin, planned.lasts);
  if (chance(draw, 0.06)) yield* testDevices(plant);
  if (back > plant.now) yield back;
  record(plant, { kind: 'pause', rule: planned.rule, begin, end: plant.now });
  plant.pause = undefined;
  yield* startUp(plant);
}

/** Every stop device pressed and released in turn while the line stands: a test that somebody records. */
function* testDevices(plant: Plant): Script {
  yield inSeconds(plant, uniform(plant.draw.breaks, 60, 240));
  for (const { id } of buttonsOf(plant.variant)) {
    const pressed = press(plant, id, 'test');
    yield* abort(plant);
    yield inSeconds(plant, uniform(plant.draw.breaks, 2, 5));
    release(plant, pressed);
    yield* reset(plant);
    yield inSeconds(plant, uniform(plant.draw.breaks, 8, 25));
  }
}
