import { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import { balanceAnswer } from './balanceSchema.ts';
import { changeoversAnswer } from './changeoverSchema.ts';
import { figuresAnswer } from './figuresSchema.ts';
import { diagnosisTold } from './diagnosisSchema.ts';
import { doneAnswer, maintenanceAnswer } from './maintenanceSchema.ts';
import { reportAnswer, reportQuery, signedAnswer, signing } from './reportSchema.ts';
import { asOfQuery } from './asOf.ts';
import { answer, asked, file, json, inPath, line } from './openApiParts.ts';
import { aroundQuery } from './pastAround.ts';
import { periodQuery } from './pastAsked.ts';
import { attributed } from './pastAttributed.ts';
import { balanceQuery } from './pastBalance.ts';
import { changeoversQuery } from './pastChangeovers.ts';
import { entriesAnswer, entriesQuery } from './pastEntries.ts';
import { comparedAnswer, pastRuns } from './comparedSchema.ts';
import { courseAnswer } from './courseSchema.ts';
import { comparedQuery } from './pastCompared.ts';
import { courseQuery } from './pastCourse.ts';
import { doneQuery } from './pastMaintenance.ts';
import { figuresQuery } from './pastFigures.ts';
import { safetyQuery } from './pastSafety.ts';
import { pastOverview, stopsAnswer } from './pastSchemas.ts';
import { setPointsQuery } from './pastSetPoints.ts';
import { setPointAnswer, setPointsAnswer } from './setPointSchema.ts';
import { stationQuery, stationsQuery } from './pastStations.ts';
import { stopsFileQuery, stopsQuery } from './pastStops.ts';
import { safetyAnswer } from './safetySchema.ts';
import { aroundAnswer, signalMeaning } from './signalSchemas.ts';
import { stationAnswer, stationsAnswer } from './stationSchemas.ts';

const words = wordsIn('en').gateway.api.describe.pastOf;

/** What is answered of a line's past, by address. */
export function pastPaths(): Readonly<Record<string, unknown>> {
  const past = '/api/lines/{line}/past';
  const get = (operation: object, query = z.object({}), more: readonly object[] = []) => ({
    get: { ...operation, parameters: [line, ...more, ...asked(query), ...asked(asOfQuery)] },
  });
  return {
    [past]: get(answer(words.overview, pastOverview)),
    [`${past}/course`]: get(answer(words.course, courseAnswer), courseQuery),
    [`${past}/runs`]: get(answer(words.runs, pastRuns)),
    [`${past}/compared`]: get(answer(words.compared, comparedAnswer), comparedQuery),
    [`${past}/stops`]: get(answer(words.stops, stopsAnswer), stopsQuery),
    [`${past}/stops.csv`]: get(file(words.stopsFile), stopsFileQuery),
    [`${past}/stations`]: get(answer(words.stations, stationsAnswer), stationsQuery),
    [`${past}/stations/{station}`]: get(answer(words.station, stationAnswer), stationQuery, [
      inPath('station'),
    ]),
    [`${past}/around`]: get(answer(words.around, aroundAnswer), aroundQuery),
    [`${past}/figures`]: get(answer(words.figures, figuresAnswer), figuresQuery),
    [`${past}/figures.csv`]: get(file(words.figuresFile), figuresQuery),
    [`${past}/attributed`]: get(answer(words.attributed, attributed), periodQuery),
    [`${past}/report`]: {
      ...get(answer(words.report, reportAnswer), reportQuery),
      post: {
        ...answer(words.sign, signedAnswer, '201'),
        parameters: [line, ...asked(reportQuery)],
        requestBody: { required: true, content: json(signing) },
      },
    },
    [`${past}/report.csv`]: get(file(words.reportFile), reportQuery),
    [`${past}/balance`]: get(answer(words.balance, balanceAnswer), balanceQuery),
    [`${past}/safety`]: get(answer(words.safety, safetyAnswer), safetyQuery),
    [`${past}/safety.csv`]: get(file(words.safetyFile), periodQuery),
    [`${past}/changeovers`]: get(answer(words.changeovers, changeoversAnswer), changeoversQuery),
    [`${past}/signals`]: get(answer(words.signals, z.array(signalMeaning))),
    [`${past}/entries`]: get(answer(words.entries, entriesAnswer), entriesQuery),
    [`${past}/maintenance`]: get(answer(words.maintenance, maintenanceAnswer)),
    [`${past}/setpoints`]: get(answer(words.setPoints, setPointsAnswer), setPointsQuery),
    [`${past}/setpoints/{adjustment}`]: get(answer(words.setPoint, setPointAnswer), setPointsQuery, [
      inPath('adjustment'),
    ]),
    [`${past}/stations/{station}/diagnosis`]: get(answer(words.diagnosis, diagnosisTold), z.object({}), [
      inPath('station'),
    ]),
    [`${past}/done`]: get(answer(words.done, doneAnswer), doneQuery),
    [`${past}/cancel`]: {
      post: { ...answer(words.cancel, z.strictObject({ ok: z.literal(true) }), '202'), parameters: [line] },
    },
  };
}
