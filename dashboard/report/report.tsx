import type { PastOverview } from '../../model/past/overview.ts';
import type { Report, ReportAnswer } from '../../model/report/report.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { type Chosen, queryOf, useChosen } from '../past/chosen.ts';
import { Choice } from '../past/choose.tsx';
import { Frame } from '../past/frame.tsx';
import { usePart } from '../store/use.tsx';
import { Paper } from './paper.tsx';
import { ReportChoices, reportChosen } from './choices.tsx';
import { Signing } from './signing.tsx';

const { past } = words.screen;
const said = past.report;

/** A report whose time is over changes only where data comes late; one that goes on, with the line. */
const AGAIN_MS = 20_000;

/** The page that a person hands over with: of a shift, a week, a month, an order, a size. */
export function ReportScreen({ overview }: { readonly overview: PastOverview | undefined }) {
  const [chosen, choose] = useChosen();
  const path = usePath(overview, chosen);
  const asked = useAsked<ReportAnswer>(path?.(''), AGAIN_MS);
  const answer = asked.data;
  const asSigned = answer?.signed !== undefined && chosen.known !== 'now';
  const report = asSigned ? answer.signed?.report : answer?.now;
  return (
    <Frame
      screen="report"
      title={past.screens.report}
      lead={leadOf(answer, report)}
      actions={
        path && (
          <>
            <button type="button" className="btn" onClick={() => print()}>
              {said.print}
            </button>
            <a className="btn plain" href={path('.csv')} download>
              {said.export}
            </a>
          </>
        )
      }
      overview={overview}
      asked={asked}
    >
      {overview && <ReportChoices overview={overview} chosen={chosen} choose={choose} />}
      {answer?.signed && (
        <div className="choices noprint">
          <Choice
            label={said.signed.title}
            options={[
              { id: undefined, said: said.signed.showSigned },
              { id: 'now', said: said.signed.showNow },
            ]}
            chosen={asSigned ? undefined : 'now'}
            choose={(known) => choose({ known })}
          />
        </div>
      )}
      {answer && (
        <div className="reportpage" data-from={report?.from} data-to={report?.to}>
          {report ? (
            <Paper
              report={report}
              // nobody signed what is known now
              signatures={asSigned ? (answer.signed?.signatures ?? []) : []}
              signed={asSigned}
            />
          ) : (
            <section className="sheet">
              <h2>{said.signed.otherForm}</h2>
              <pre>{answer.signed?.page}</pre>
            </section>
          )}
          <Signing answer={answer} path={path?.('')} again={asked.again} />
        </div>
      )}
    </Frame>
  );
}

/** Until it is answered, that it is asked; of a page that cannot be drawn, that. */
function leadOf(answer: ReportAnswer | undefined, report: Report | undefined): readonly [string, string] {
  if (report) return [report.goesOn ? said.soFar : '', said.lead(report)];
  return [answer ? said.signed.otherForm : past.asking, ''];
}

function usePath(overview: PastOverview | undefined, chosen: Chosen) {
  const { id } = usePart('line');
  if (!overview) return undefined;
  const { kind, at, order, size } = reportChosen(overview, chosen);
  return (end: '' | '.csv') =>
    `/api/lines/${encodeURIComponent(id)}/past/report${end}${queryOf({ kind, at, order, size })}`;
}
