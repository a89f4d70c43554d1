import { type Conditions, kindOfKey } from '../notices/condition.ts';
import { isUnseen } from '../view/seen.ts';
import { deviceConditions } from './devices.ts';
import { looseConditions } from './loose.ts';
import { isOutputUndecided, outputConditions } from './output.ts';
import { isSightUndecided, sightConditions } from './sight.ts';
import type { Watched } from './watched.ts';

/** What is known whether the line is seen or not. */
export const ALWAYS_KNOWN: ReadonlySet<string> = new Set(['server', 'unseen', 'disk', 'clock', 'test']);

/** What is judged by the past of a station. */
const OF_STATIONS: ReadonlySet<string> = new Set(['stops', 'stopsCounted', 'rejects']);

/** What holds of a line at a moment. While nobody sees it, what is said of it stays as it was: no data is no return to normal. */
export function conditionsOf(watched: Watched): Conditions {
  const blind = isUnseen(watched.seen) || watched.seen.state.gap !== null;
  const ofLine = blind
    ? []
    : [
        ...(watched.stations ?? []),
        ...looseConditions(watched),
        ...outputConditions(watched),
        ...deviceConditions(watched),
      ];
  const tests = blind ? deviceConditions(watched).filter(({ facts }) => facts.kind === 'test') : [];
  return {
    present: [...ofLine, ...tests, ...sightConditions(watched)],
    undecided: (key) =>
      (blind && !ALWAYS_KNOWN.has(kindOfKey(key))) ||
      (watched.stations === undefined && OF_STATIONS.has(kindOfKey(key))) ||
      (watched.tested === undefined && kindOfKey(key) === 'test') ||
      isOutputUndecided(watched, kindOfKey(key)) ||
      isSightUndecided(watched, key),
  };
}
