import type { DoneRow } from '../../model/past/donePast.ts';
import type { HeldAnswer } from '../../model/past/held.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';
import { usePositionName } from '../entries/names.ts';
import { Carton } from '../marks/symbols.tsx';
import { useAsked } from '../past/asked.ts';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.maintenance.done;
const AGAIN_MS = 30_000;
const MONTH_MS = 30 * 86_400_000;

/** What was done at stations, the newest first, and whether it held. */
export function DoneList({ done, zone }: { readonly done: readonly DoneRow[]; readonly zone: string }) {
  return (
    <section className="sheet donelist">
      <h2>{said.title}</h2>
      {done.length === 0 ? (
        <p>{said.none}</p>
      ) : (
        <ul>
          {done.map((row) => (
            <Row key={row.id} row={row} zone={zone} />
          ))}
        </ul>
      )}
      <p className="foot">
        {said.foot} {said.caution}
      </p>
    </section>
  );
}

/** The same of one station, over the last 30 days. */
export function DoneAt({
  station,
  now,
  zone,
}: {
  readonly station: string;
  readonly now: number;
  readonly zone: string;
}) {
  const { id } = usePart('line');
  // by whole hours, so that the same question is asked again
  const from = Math.floor(now / 3_600_000) * 3_600_000 - MONTH_MS;
  const asked = useAsked<readonly DoneRow[]>(
    `/api/lines/${encodeURIComponent(id)}/past/done?station=${encodeURIComponent(station)}&from=${from}`,
    AGAIN_MS,
  );
  return asked.data ? <DoneList done={asked.data} zone={zone} /> : null;
}

function Row({ row, zone }: { readonly row: DoneRow; readonly zone: string }) {
  const positionName = usePositionName();
  const { station } = row;
  return (
    <li>
      <Carton drawing={station.drawing} width={34} className="small" />
      <div className="what">
        <b>{past.station(station.number, station.name)}</b>
        <span>
          <SeeIt at={row.at} station={station.id}>
            {past.when(row.at, zone)}
          </SeeIt>
          , {past.said.by(row.by, positionName)}
        </span>
      </div>
      <div className="did">
        <p>
          {row.kind === 'changed' ? said.changed(row) : said.notice(row)}
          {row.words !== undefined && `: ${row.words}`}
          {row.kind === 'changed' && row.corrected && <small> ({said.corrected})</small>}
        </p>
        {row.kind === 'changed' ? <Held row={row} /> : <CameBack row={row} zone={zone} />}
      </div>
    </li>
  );
}

/** What is expected stands before what came. */
function Held({ row }: { readonly row: Extract<DoneRow, { kind: 'changed' }> }) {
  if (row.expects === undefined) return <small>{said.nothingExpected}</small>;
  if (row.held === undefined) return <small>{said.byHand}</small>;
  return <Judged held={row.held} expects={row.expects} />;
}

/** Whether what a notice was about came again, and what came by run before and after. */
function CameBack({
  row,
  zone,
}: {
  readonly row: Extract<DoneRow, { kind: 'notice' }>;
  readonly zone: string;
}) {
  const { measure, held, again } = row;
  return (
    <>
      <small>{again === undefined ? said.notAgain : said.again(past.when(again, zone))}</small>
      {held && measure && <Judged held={held} expects={measure} />}
    </>
  );
}

function Judged({ held, expects }: { readonly held: HeldAnswer; readonly expects: HeldAnswer['measure'] }) {
  const [numbers, answer] = said.held(held);
  const of = numbersOf(held);
  return (
    <div className="held">
      <small>{said.expected(expects)}</small>
      <p>
        <Rich text={numbers} of={of} />
      </p>
      <p>
        <b>
          <Rich text={answer} of={answerNumbers(held)} />
        </b>
      </p>
    </div>
  );
}

function numbersOf({ before, after }: HeldAnswer): readonly Numbered[] {
  return [before, after].flatMap((side): Numbered[] => [
    ['heldRate', said.perThousand(side)],
    ['heldRuns', said.runs(side)],
  ]);
}

/** How many there were, and how many it takes. */
function answerNumbers({ why }: HeldAnswer): readonly Numbered[] {
  switch (why?.kind) {
    case 'noneBefore':
      return [['heldRuns', past.count(why.needed)]];
    case 'tooFew':
    case 'changedAgain':
      return [
        ['heldRuns', past.count(why.so)],
        ['heldRuns', past.count(why.needed)],
      ];
    default:
      return why?.next === undefined ? [] : [['heldRuns', past.count(why.next)]];
  }
}
