import { causes } from '../fold/account.ts';
import type { LineFold } from '../fold/fold.ts';
import { epochMs, type Instant, type Millis, millis, type Span } from '../units/units.ts';
import { changeoverView } from './changeoverView.ts';
import { devicesView } from './devicesView.ts';
import { fittedView } from './fittedView.ts';
import { headView } from './headView.ts';
import { mattersView, questionView } from './mattersView.ts';
import { noticesView } from './noticesView.ts';
import { crewsView, ordersView } from './ordersView.ts';
import { pathView } from './pathView.ts';
import { planView } from './planView.ts';
import { positionsView } from './positionsView.ts';
import { rateView } from './rateView.ts';
import { ms, type Outside, type Seen, seenAt } from './seen.ts';
import { sheetsView } from './sheetView.ts';
import { trendView } from './trendView.ts';
import type { LineView, Sight } from './view.ts';

export type { Outside } from './seen.ts';

/**
 * What the Line screen and the line-side panels show of a line at a moment. Depends on nothing but the fold, the
 * moment and what is known from outside: replay passes the moment at its cursor.
 */
export function viewOf(fold: LineFold, now: Instant, outside: Outside): LineView {
  const seen = seenAt(fold, now);
  const { line } = seen.index;
  const size = seen.state.size === null ? undefined : seen.index.sizeById.get(seen.state.size);
  return {
    line: {
      id: line.id,
      name: line.name,
      product: line.product,
      zone: line.zone,
      size: size?.name,
      lossPatterns: causes,
      ...(line.settings.emergencyNumber === undefined
        ? {}
        : { emergencyNumber: line.settings.emergencyNumber }),
    },
    at: epochMs(now),
    sight: sightView(seen, outside),
    head: headView(seen),
    rate: rateView(seen),
    plan: planView(seen),
    changeover: changeoverView(seen),
    path: pathView(seen),
    trend: trendView(seen),
    devices: devicesView(seen),
    loading: positionsView(seen),
    matters: mattersView(seen, outside),
    question: questionView(seen),
    orders: ordersView(seen),
    crews: crewsView(seen),
    notices: noticesView(seen.index, seen.state, { now, shutOff: outside.shutOff }),
    sheets: sheetsView(seen),
    fitted: fittedView(seen),
  };
}

function sightView(seen: Seen, outside: Outside): Sight {
  const unknown = unknownTime(seen);
  const from = seen.state.shift.shift?.from;
  const elapsed = from === undefined || seen.sight === 'never' ? 0 : seen.now - from;
  return {
    kind: seen.sight,
    age: seen.sight === 'never' ? undefined : millis(seen.age),
    lastAt: ms(seen.state.heardAt),
    servers: outside.servers.map(({ id, up, since, clockOffset }) => ({ id, up, since, clockOffset })),
    ...(outside.unrecorded ? { unrecordedSince: outside.unrecorded.since } : {}),
    coverage: elapsed > 0 ? Math.max(0, Math.min(1, 1 - unknown / elapsed)) : undefined,
    unknown: seen.sight === 'never' ? (0 as Millis) : millis(unknown),
  };
}

/** [CV1] Time of this shift in which the line was not observed; isolated time was, by its counters. */
function unknownTime(seen: Seen): Span {
  const { shift, gap } = seen.state;
  let unknown = shift.shift ? shift.from - shift.shift.from : 0;
  for (const span of shift.gaps) if (span.kind === 'unknown') unknown += span.to - span.from;
  if (gap) unknown += seen.now - Math.max(gap.from, shift.from);
  else if (seen.sight === 'lost') unknown += seen.now - seen.state.heardAt;
  return unknown as Span;
}
