import type { PlanView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { ClearOfHatch } from '../blank/blank.tsx';
import { MinuteRate } from '../blank/minute-rate.tsx';
import { orderNumbers, PlanBar } from '../blank/plan-panel.tsx';
import { targetNumbers } from '../blank/rate-panel.tsx';
import { useHeadline } from '../blank/head.tsx';
import { useSaid, TONES } from '../blank/said.ts';
import type { Numbered } from '../figures/pieces.ts';
import { Mark } from '../marks/symbols.tsx';
import { useActsNear } from '../matters/caution.tsx';
import { readAt } from '../store/moment.ts';
import { useSession } from '../people/session.ts';
import { useSheetsHere } from '../sheet/here.ts';
import { useEnter, useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { plain, setLines } from '../type/measure.ts';
import { useSeen } from '../wall/reads.ts';
import { Key } from './key.tsx';
import type { Opened } from './panel.tsx';
import type { Kept } from './lastKept.ts';
import { usePanelNotices } from './notice.tsx';
import { PanelAge, PanelClock, PanelHead } from './panel-head.tsx';
import { OwnPockets, useOwnPockets } from './own-pockets.tsx';
import { useSilent } from './state-rows.tsx';

/** Nothing is asked: the rate, this position's own pockets, the order, and three keys. */
export function Home({
  here,
  open,
  last,
}: {
  readonly here: PositionView;
  readonly open: (page: Opened) => void;
  /** What was just entered here, and can be taken back. */
  readonly last: Kept | undefined;
}) {
  const headline = useHeadline();
  const pockets = useOwnPockets(here);
  const near = useActsNear();
  const { sight } = useMoment();
  const seen = useSeen();
  return (
    <>
      <h1 className="unseen">{headline}</h1>
      <HomeHead here={here} />
      {near && (
        <p className="beside">
          <Mark id="m-lock" size={34} />
          {words.screen.caution.short}
        </p>
      )}
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset */}
      <svg
        width={1280}
        height={320}
        viewBox="0 330 1280 320"
        className={`panelbody ${sight === 'live' ? '' : seen ? 'stale' : 'stale gone'}`}
        role="group"
        aria-label={plain(`${here.name}: ${pockets}`)}
      >
        <OwnPockets here={here} />
        <OrderBar />
      </svg>
      <HomeKeys here={here} open={open} last={last} />
    </>
  );
}

type HomeKey = 'notices' | 'sheet' | 'note' | 'taken' | 'fitted' | 'order' | 'person' | 'back';
/** So many keys have room, narrower where sheets can be begun; what is there for a while takes the place of these, in this order. */
const KEYS_MOST = { withSheet: 5, without: 4 } as const;
const GIVE_WAY: readonly HomeKey[] = ['fitted', 'taken', 'note'];
/** Of one key, by how many there are. */
const WIDTHS: Readonly<Record<number, number>> = { 3: 400, 4: 300 };

function keysThatFit(kinds: readonly HomeKey[]): readonly HomeKey[] {
  const most = kinds.includes('sheet') ? KEYS_MOST.withSheet : KEYS_MOST.without;
  const gone = GIVE_WAY.slice(0, Math.max(0, kinds.length - most));
  return kinds.filter((kind) => !gone.includes(kind));
}

/** Three keys; more for an open notice, a changeover, a test where people have numbers, and to take back what was just entered. */
function HomeKeys({
  here,
  open,
  last,
}: {
  readonly here: PositionView;
  readonly open: (page: Opened) => void;
  readonly last: Kept | undefined;
}) {
  const enter = useEnter();
  const { panel, line } = words.screen;
  const plan = usePart('plan');
  const rate = usePart('rate');
  const session = useSession();
  const { counts } = usePart('notices');
  // what is put aside alone is no reason for a key: others would give way to it for days
  const listed = usePanelNotices(here).some(({ state }) => state !== 'shelved');
  const { sheets } = useSheetsHere();
  const fitted = usePart('fitted');
  const says = {
    sheet: words.screen.sheet.key(sheets),
    note: panel.note,
    taken: words.screen.balance.taken.key,
    fitted: words.screen.fitted.key(fitted.find(({ what }) => what === 'lot')?.now?.name),
    order: panel.orderCrew(plan.order?.number, line.small(rate.crew)),
    person: words.screen.people.panel.key(session?.person?.number),
    notices: words.screen.noticePanel.key(counts),
    back: last === undefined ? [] : panel.takeBack(last.kind),
  } as const;
  const marks = { note: 'm-note', order: 'm-order' } as const;
  const all: readonly (HomeKey | false)[] = [
    listed && 'notices',
    sheets.sizes.length > 0 && 'sheet',
    'note',
    'taken',
    fitted.length > 0 && sheets.sizes.length > 0 && 'fitted',
    'order',
    session?.people === true && 'person',
    last !== undefined && 'back',
  ];
  const kinds = keysThatFit(all.filter((kind) => kind !== false));
  const width = WIDTHS[kinds.length] ?? 240;
  const step = (1232 - width) / (kinds.length - 1);
  return kinds.map((kind, i) => (
    <Key
      key={kind}
      says={says[kind]}
      left={Math.round(24 + i * step)}
      top={642}
      width={width}
      height={134}
      {...(kinds.length === 3 && (kind === 'note' || kind === 'order') ? { mark: marks[kind] } : {})}
      kind={kinds.length === 3 ? kind : `${kind} narrow`}
      onTap={() => {
        if (kind !== 'back') open({ kind });
        else if (last) enter({ kind: 'correction', of: last.id, was: last.kind });
      }}
    />
  ));
}

function HomeHead({ here }: { readonly here: PositionView }) {
  const head = usePart('head');
  const { said } = useSaid();
  const silent = useSilent();
  const plan = usePart('plan');
  const behind =
    plan.shift === undefined
      ? words.screen.line.plan.noShift
      : words.screen.line.plan.behindLine(plan.behind);
  const phrases = [...said.lines, silent ?? (head.kind === 'running' ? behind : '')].filter(
    (phrase) => phrase !== '',
  );
  const { size, lines } = setLines(phrases, { width: 560, most: 3, sizes: [34, 32, 30, 28] });
  const tone = TONES[said.look];
  return (
    <PanelHead
      edges={[700, 1080]}
      bottom={294}
      look={said.look}
      mark={said.mark}
      position={here.name}
      said={[said.title, ...lines].join(', ')}
    >
      <ClearOfHatch look={said.look} x={108} y={78} width={580} height={206} />
      <Line x={120} y={142} size={68} max={560} least={40} bold tone={tone} of={said.of}>
        {said.title}
      </Line>
      {lines.map((text, i) => (
        <Line
          key={text}
          x={120}
          y={192 + i * 42}
          size={size}
          tone={tone}
          of={[...said.of, ['behindPlan', words.screen.line.count(Math.abs(plan.behind))]]}
        >
          {text}
        </Line>
      ))}
      <HomeRate />
      <NextPause />
    </PanelHead>
  );
}

function HomeRate() {
  const rate = usePart('rate');
  const { zone } = usePart('line');
  const moment = useMoment();
  const { line, panel } = words.screen;
  return (
    <>
      <Line x={890} y={57} size={26} max={330} least={26} anchor="middle" tone="ink2">
        {panel.rate}
      </Line>
      <MinuteRate
        x={722}
        y={208}
        max={178}
        none={{ y: 186, size: 52 }}
        doubt="M724 222H892"
        pockets={{ x: 912, y: 82, width: 145, height: 160, columns: 6 }}
      />
      {moment.sight === 'live' && (
        <Line x={890} y={277} size={28} max={356} least={26} anchor="middle" of={targetNumbers(rate)}>
          {line.rate.target(rate.target, rate.crew)}
        </Line>
      )}
      {moment.sight === 'stale' && (
        <Line x={890} y={277} size={28} max={356} least={26} anchor="middle">
          {line.plan.asOf(readAt(moment), zone)}
        </Line>
      )}
    </>
  );
}

/** The next pause, or the age of the reading where no pause is left. */
function NextPause() {
  const { nextPause, shift } = usePart('plan');
  const { zone } = usePart('line');
  const moment = useMoment();
  const { panel } = words.screen;
  const rows =
    nextPause === undefined
      ? shift === undefined
        ? panel.noShift
        : panel.noPause
      : [panel.pauseAt(nextPause.at, moment.clock, zone), panel.pauseLong(nextPause.allowance)];
  const long = nextPause === undefined ? '' : words.screen.line.roughly(nextPause.allowance);
  return (
    <>
      <PanelClock x={1168} />
      {nextPause !== undefined && (
        <>
          <Line x={1168} y={112} size={28} anchor="middle" tone="ink2">
            {panel.nextPause}
          </Line>
          <Line
            x={1168}
            y={166}
            size={52}
            max={160}
            least={30}
            anchor="middle"
            bold
            of={[['untilPause', panel.pauseIn(Math.max(0, nextPause.at - moment.clock))]]}
          >
            {panel.pauseIn(Math.max(0, nextPause.at - moment.clock))}
          </Line>
        </>
      )}
      {rows.map((text, i) => (
        <Line
          key={text}
          x={1168}
          y={(nextPause === undefined ? 128 : 196) + i * 29}
          size={26}
          max={168}
          least={24}
          anchor="middle"
          tone="ink2"
          of={[['pauseAllowance', long]]}
        >
          {text}
        </Line>
      ))}
      <PanelAge x={1168} y={256} />
    </>
  );
}

/** What is made and wanted: of the order, or of the shift where there is none. */
function barNumbers(plan: PlanView): readonly Numbered[] {
  if (plan.order !== undefined) return orderNumbers(plan.order);
  const { count } = words.screen.line;
  return [
    ['good', count(plan.good)],
    ['shiftPlan', count(plan.planned)],
  ];
}

/** The order as board; without one the shift, with what was planned so far as a score. */
function OrderBar() {
  const plan = usePart('plan');
  const { panel } = words.screen;
  const { count } = words.screen.line;
  const { order } = plan;
  // what was planned so far is of the shift, and an order may be older: it has no score
  const bar =
    order === undefined
      ? plan.shift && plan
      : { good: order.good, planned: order.quantity, plannedSoFar: undefined };
  const said =
    order !== undefined
      ? panel.order(order)
      : plan.shift === undefined
        ? panel.noOrderNoShift
        : panel.noOrder(plan.good, plan.planned, plan.shift.name);
  return (
    <g>
      <Line x={24} y={540} size={30} max={820} least={26} value of={barNumbers(plan)}>
        {said}
      </Line>
      {order?.perCase !== undefined && order.cases !== undefined && (
        <Line
          x={1256}
          y={540}
          size={26}
          max={400}
          least={26}
          anchor="end"
          tone="ink2"
          of={[
            ['cases', count(order.cases)],
            ['perCase', count(order.perCase)],
          ]}
        >
          {panel.cases(order.cases, order.perCase)}
        </Line>
      )}
      {bar !== undefined && <PlanBar plan={bar} x={24} y={556} width={1232} height={36} />}
      {bar?.plannedSoFar !== undefined && (
        <Line x={1256} y={624} size={26} anchor="end" tone="ink2">
          {panel.dashed}
        </Line>
      )}
    </g>
  );
}
