import type { FigureId } from '../../model/figures/figures.ts';
import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import type { BalanceAnswer } from '../../model/past/balanceAnswer.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { type Chosen, periodOf, queryOf, useChosen } from '../past/chosen.ts';
import { OrderChoice, PeriodChoice, ShiftChoice, SizeChoice } from '../past/choose.tsx';
import { Frame } from '../past/frame.tsx';
import { seenNumbers } from '../past/numbers.ts';
import { usePart } from '../store/use.tsx';
import { Balance } from './balance.tsx';
import { Rich } from '../type/line.tsx';
import { Figure } from './figure.tsx';
import { figuresSeen } from './period.ts';
import { TimeStrips } from './timeStrips.tsx';

const { past } = words.screen;
const { figures } = past;
const said = figures.screen;

/** How often a period that goes on until now is asked for again. */
const AGAIN_MS = 10_000;

const GROUPS = {
  effectiveness: ['oee', 'nee', 'availability', 'effectiveness', 'qualityRatio'],
  time: ['technicalEfficiency', 'allocationEfficiency', 'utilizationEfficiency', 'setupRate', 'coverage'],
  failures: ['mtbf', 'mtbfOneMore', 'mttr', 'failures', 'ownStops', 'minorStops', 'causedStops'],
  cartons: [
    'good',
    'produced',
    'rejected',
    'crushed',
    'notLoaded',
    'missedPick',
    'lost',
    'scrapRatio',
    'fallOffRatio',
    'rejectsPerThousand',
    'throughput',
    'runningRate',
  ],
} as const satisfies Record<string, readonly FigureId[]>;

/** Figures that the heading's answer is told with, in its order. */
const LEAD = ['oee', 'nee', 'availability', 'effectiveness', 'qualityRatio', 'good'] as const;

function toldOf({ values }: FiguresAnswer, id: FigureId): string {
  return said.told(values.find((one) => one.id === id))[0];
}

/** Key figures of any period, each with how it is made. */
export function Figures({ overview }: { readonly overview: PastOverview | undefined }) {
  const [chosen, choose] = useChosen();
  const path = usePath(overview, chosen);
  const asked = useAsked<FiguresAnswer>(path?.('figures'), AGAIN_MS);
  const answer = asked.data;
  // the balance is of the line, not of a part of what ran on it
  const all = chosen.size === undefined && chosen.shift === undefined && chosen.order === undefined;
  const balance = useAsked<BalanceAnswer>(all ? path?.('balance') : undefined, AGAIN_MS);
  const span =
    answer && overview
      ? past.period.span(answer.seen.from, answer.seen.to, overview.now, overview.zone)
      : '…';
  return (
    <Frame
      screen="figures"
      title={said.title(span, overview && nameOf(chosen, overview))}
      lead={answer ? said.lead(answer) : [past.asking, '']}
      of={answer && LEAD.map((id) => [id, toldOf(answer, id)])}
      seen={figuresSeen(answer?.seen, chosen)}
      actions={
        path && (
          <a className="btn" href={path('figures.csv')} download>
            {said.export}
          </a>
        )
      }
      overview={overview}
      asked={asked}
    >
      {overview && <Choices overview={overview} chosen={chosen} choose={choose} />}
      {answer && overview && (
        <div>
          {answer.parts === 0 ? (
            <section className="sheet">
              <p className="second">{said.nothing}</p>
            </section>
          ) : (
            <>
              <TimeStrips answer={answer} />
              <Table answer={answer} zone={overview.zone} />
              {balance.data && <Balance answer={balance.data} zone={overview.zone} />}
              <Settings answer={answer} />
            </>
          )}
        </div>
      )}
    </Frame>
  );
}

function Choices({
  overview,
  chosen,
  choose,
}: {
  readonly overview: PastOverview;
  readonly chosen: Chosen;
  readonly choose: ReturnType<typeof useChosen>[1];
}) {
  return (
    <div className="choices">
      <PeriodChoice
        overview={overview}
        chosen={chosen.period ?? 'shift'}
        choose={(period) => choose({ period })}
      />
      <ShiftChoice overview={overview} chosen={chosen.shift} choose={(shift) => choose({ shift })} />
      <SizeChoice overview={overview} chosen={chosen.size} choose={(size) => choose({ size })} />
      <OrderChoice overview={overview} chosen={chosen.order} choose={(order) => choose({ order })} />
    </div>
  );
}

function Table({ answer, zone }: { readonly answer: FiguresAnswer; readonly zone: string }) {
  return (
    <section className="sheet figuretable">
      <h2>{said.table}</h2>
      <div className="columns">
        {(Object.keys(GROUPS) as (keyof typeof GROUPS)[]).map((group) => (
          <table key={group}>
            <caption>{said.groups[group]}</caption>
            <thead className="unseen">
              <tr>
                <th scope="col">{said.columns.figure}</th>
                <th scope="col">{said.columns.value}</th>
                <th scope="col">{said.columns.range}</th>
              </tr>
            </thead>
            <tbody>
              {GROUPS[group].map((id) => (
                <Row key={id} id={id} answer={answer} />
              ))}
            </tbody>
          </table>
        ))}
      </div>
      <p className="foot">
        <Rich text={past.seen(answer.seen, zone)} of={seenNumbers(answer.seen)} /> {said.parts(answer.parts)}
      </p>
    </section>
  );
}

function Row({ id, answer }: { readonly id: FigureId; readonly answer: FiguresAnswer }) {
  const [value, range] = said.told(answer.values.find((one) => one.id === id));
  return (
    <tr>
      <th scope="row">
        <Figure of={id}>{figures.of[id].name}</Figure>
      </th>
      <td className="n">
        <b>{value}</b> {value === '–' ? '' : said.unitOf(id)}
      </td>
      <td className="range">{range}</td>
    </tr>
  );
}

function Settings({ answer }: { readonly answer: FiguresAnswer }) {
  return (
    <section className="sheet">
      <h2>{said.settings}</h2>
      <ul className="settings">
        {answer.ideal.map(({ id, name, ideal }) => (
          <li key={id}>
            <Rich
              text={said.ideal(name, ideal)}
              of={ideal === undefined ? [] : [['idealRate', past.count(ideal)]]}
            />
          </li>
        ))}
        <li>
          <Rich
            text={said.minor(answer.minorStopMinutes)}
            of={[['minorLimit', past.count(answer.minorStopMinutes)]]}
          />
        </li>
      </ul>
      <p className="foot">{said.settingsFoot}</p>
    </section>
  );
}

/** What is looked at other than all of it, in words. */
function nameOf(chosen: Chosen, { sizes, shifts }: PastOverview): string | undefined {
  const parts = [
    sizes.find(({ id }) => id === chosen.size)?.name,
    shifts.find(({ rule }) => rule === chosen.shift)?.name,
    chosen.order,
  ].filter((part) => part !== undefined);
  return parts.length > 0 ? parts.join(', ') : undefined;
}

function usePath(overview: PastOverview | undefined, chosen: Chosen) {
  const { id } = usePart('line');
  if (!overview) return undefined;
  const { size, shift, order } = chosen;
  const period = periodOf(chosen.period ?? 'shift', overview);
  return (name: 'figures' | 'figures.csv' | 'balance') =>
    `/api/lines/${encodeURIComponent(id)}/past/${name}${queryOf({ ...period, size, shift, order })}`;
}
