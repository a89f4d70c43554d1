import { after, type Instant, seconds } from '../../model/units/units.ts';
import { nextBreak, type PlannedBreak, takeBreak } from './breaks.ts';
import { changeOver } from './changeover.ts';
import { guardOpened, holdAtLoading, pressAlone, stopAtPanel, suspend } from './halts.ts';
import { jamStop } from './jams.ts';
import { inSeconds, type Plant, type Script } from './plant.ts';
import { type Draw, exponential, uniform } from './random.ts';

/** Something that happens to the line from time to time, at a mean distance in hours (invented, no source). */
interface Happening {
  readonly hours: number;
  readonly draw: (plant: Plant) => Draw;
  readonly run: (plant: Plant) => Script;
}

const happenings: readonly Happening[] = [
  { hours: 8, draw: (plant) => plant.draw.incidents, run: (plant) => suspend(plant, 11) },
  { hours: 6.5, draw: (plant) => plant.draw.incidents, run: (plant) => suspend(plant, 72) },
  { hours: 9, draw: (plant) => plant.draw.incidents, run: (plant) => suspend(plant, 111) },
  { hours: 5.5, draw: (plant) => plant.draw.people, run: holdAtLoading },
  { hours: 8, draw: (plant) => plant.draw.people, run: stopAtPanel },
  { hours: 30, draw: (plant) => plant.draw.presses, run: (plant) => pressAlone(plant, 'alone') },
  { hours: 70, draw: (plant) => plant.draw.presses, run: (plant) => pressAlone(plant, 'test') },
  { hours: 45, draw: (plant) => plant.draw.guards, run: guardOpened },
];

interface Due {
  at: Instant;
  readonly happening: Happening;
}

/** The line's life: it produces until something happens, sees it through, and produces again. */
export function* life(plant: Plant): Script {
  const dues: Due[] = happenings.map((happening) => ({ at: later(plant, happening), happening }));
  let pause = nextBreak(plant, plant.now);
  for (;;) {
    pause = stillToCome(plant, pause);
    const due = dues.reduce((first, other) => (other.at < first.at ? other : first));
    if (!plant.fault && !plant.orderDone) yield pause && pause.at < due.at ? pause.at : due.at;
    if (plant.fault) yield* jamStop(plant, plant.fault);
    else if (plant.orderDone) yield* changeOver(plant);
    else if (pause && pause.at <= plant.now) {
      yield* takeBreak(plant, pause);
      pause = nextBreak(plant, plant.now);
    } else if (due.at <= plant.now) {
      yield* due.happening.run(plant);
      due.at = later(plant, due.happening);
    }
    putOff(plant, dues);
  }
}

function later(plant: Plant, { hours, draw }: Happening): Instant {
  return inSeconds(plant, exponential(draw(plant), (hours * 3_600) / plant.options.lively));
}

/** What fell due while the line stood comes a little after it runs again. */
function putOff(plant: Plant, dues: readonly Due[]): void {
  const earliest = after(plant.now, seconds(15));
  for (const due of dues) {
    if (due.at < earliest) due.at = inSeconds(plant, uniform(plant.draw.incidents, 20, 240));
  }
}

/** A break whose window has gone by while the line stood is not taken. */
function stillToCome(plant: Plant, pause: PlannedBreak | undefined): PlannedBreak | undefined {
  if (pause && plant.now <= pause.latest) return pause;
  return nextBreak(plant, plant.now);
}
