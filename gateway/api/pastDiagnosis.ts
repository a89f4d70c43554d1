import type { Router } from 'express';
import { diagnose } from '../../model/diagnosis/diagnosis.ts';
import { diagnosisAnswer } from '../../model/diagnosis/diagnosisAnswer.ts';
import type { SymptomKnowledge } from '../../model/diagnosis/symptoms.ts';
import type { DiagnosisTold } from '../../model/diagnosis/told.ts';
import type { Happening } from '../../model/diagnosis/troubled.ts';
import { type EarlierRun, ownStops, rejectsIn, troubledNow } from '../../model/diagnosis/troubledNow.ts';
import { gainedBetween } from '../../model/past/stationCounts.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { lookedSubject } from '../../model/records/subjects.ts';
import { after, type Instant, type Span } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { lotsSaid, partsSaid } from './fittedPast.ts';
import type { Doors } from './past.ts';
import { begunOf } from './pastAsked.ts';
import { learnedBy } from './pastSetPoints.ts';
import { runsOf, talliesOf } from './pastTallies.ts';
import { setPointEvidence } from './setPointEvidence.ts';

const words = wordsIn('en').screen.past.stations.notFound;

/** Whole runs of the size that tell what is usual. */
const EARLIER_MOST = 40;
/** What people said of one station's cartons in one run. */
const LOOKS_MOST = 200;

export function diagnosisRoutes(router: Router, { past, symptoms }: Doors): void {
  router.get('/stations/:station/diagnosis', async (request, response) => {
    const { records, live } = await past(request, response);
    const { station } = request.params;
    if (live.line.stations.some(({ id }) => id === station))
      response.json(await diagnosisOf(records, live, station, symptoms(live.line.id)));
    else
      response
        .status(404)
        .json({ ok: false, trouble: words.station(station), why: words.why, mend: words.mend });
  });
}

/** [DG8] */
export async function diagnosisOf(
  records: RecordsRead,
  live: LineRead,
  station: string,
  knowledge: SymptomKnowledge | undefined,
): Promise<DiagnosisTold> {
  if (!knowledge) return { kind: 'noKnowledge' };
  const now = live.now();
  const { index, state } = live.fold();
  const begun = begunOf(records, live, { to: now });
  const runs = runsOf(records, live, { to: now, begun }).filter(({ from, to }) => to > from);
  const last = runs.at(-1);
  const { size } = state;
  if (!last || size === null || last.size !== size) return { kind: 'noRun' };
  const evidence = setPointEvidence(records, live, size);
  const learned = await learnedBy(records, live, size, evidence);
  const { id: line } = live.line;
  const tallyAt = talliesOf(records, live, now);
  const within = { line, from: last.from, to: now };
  const earlier = runs
    .slice(0, -1)
    .filter((run) => run.size === size)
    .slice(-EARLIER_MOST)
    .map(({ from, to }): EarlierRun => {
      const { rejects, cartons } = rejectsIn(index, gainedBetween(tallyAt(from), tallyAt(to)));
      return { rejects, cartons, stops: ownStops(records.ask({ line, kind: 'stop', from, to }), from, to) };
    });
  const troubled = troubledNow({
    ...{ index, state, knowledge, station },
    from: last.from,
    to: now,
    changeover: changeoverOf(records, live, last.from),
    minutes: [
      { at: last.from, tally: tallyAt(last.from) },
      ...records.ask({ ...within, kind: 'minute' }).filter(({ at }) => at > last.from),
    ],
    stops: records.ask({ ...within, kind: 'stop' }),
    earlier,
    histories: evidence.histories,
    learned,
    looks: newestOf(records, live, lookedSubject(station)).flatMap(({ at, entry }) =>
      entry.kind === 'looked' && at >= last.from ? [{ at, symptom: entry.symptom }] : [],
    ),
    fitted: fittedIn(records, live, last.from),
  });
  const found = troubled && diagnose(troubled, knowledge);
  const answer = found && diagnosisAnswer(live.line, found);
  return answer ? { kind: 'told', diagnosis: answer } : { kind: 'tooFew' };
}

/** The one that the run began with. */
function changeoverOf(
  records: RecordsRead,
  live: LineRead,
  from: Instant,
): RecordBodies['changeover'] | undefined {
  const { changeover, lastChangeover } = live.fold().state;
  return (
    [changeover, lastChangeover, records.last(live.line.id, 'changeover', after(from, 1 as Span))].find(
      (one) => one !== null && one !== undefined && one.begin <= from && (one.end ?? from) >= from,
    ) ?? undefined
  );
}

function fittedIn(records: RecordsRead, live: LineRead, from: Instant): readonly Happening[] {
  const { changeoverSteps } = live.line;
  const now = live.now();
  const said = [
    ...lotsSaid(records, live, now, LOOKS_MOST).map((one) => ({ ...one, kind: 'lot' }) as const),
    ...partsSaid(records, live, now, LOOKS_MOST).map((one) => ({ ...one, kind: 'part' }) as const),
  ].flatMap(({ kind, at, name, step }): readonly Happening[] => {
    const part = changeoverSteps.find(({ id }) => id === step)?.name;
    return at >= from ? [{ kind, at, name: part === undefined ? name : `${part} ${name}` }] : [];
  });
  const begun = records.last(live.line.id, 'size', after(from, 1 as Span));
  return begun?.lot === undefined ? said : [{ kind: 'lot', at: from, name: begun.lot }, ...said];
}

function newestOf(records: RecordsRead, live: LineRead, subject: string): readonly RecordBodies['entry'][] {
  return records.newestOf({ line: live.line.id, kind: 'entry', subject }, live.now(), LOOKS_MOST);
}
