import { aggregates } from './aggregates.ts';
import type { Topic } from './check.ts';
import { clusters } from './clusters.ts';
import { coal } from './coal.ts';
import { counterSteps } from './counterSteps.ts';
import { counts } from './counts.ts';
import { ewmaCusum } from './ewmaCusum.ts';
import { failureTrend } from './failureTrend.ts';
import { iso22400 } from './iso22400.ts';
import { mtbf } from './mtbf.ts';
import { onTheLine } from './onTheLine.ts';
import { proportions } from './proportions.ts';
import { rates } from './rates.ts';
import { shifts } from './shifts.ts';
import { states } from './states.ts';
import { surprises } from './surprises.ts';
import { together } from './together.ts';

/** Everything that is held to a printed figure, in the order of INDEX.md. */
export const topics: readonly Topic[] = [
  iso22400,
  onTheLine,
  shifts,
  counterSteps,
  states,
  aggregates,
  proportions,
  counts,
  rates,
  mtbf,
  failureTrend,
  ewmaCusum,
  coal,
  clusters,
  surprises,
  together,
];
