import type { PastOverview } from '../../model/past/overview.ts';
import { isSameMoment, reportMoments } from '../../model/report/reportMoments.ts';
import type { ReportKind } from '../../model/report/reportPeriod.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { words } from '../app/words.ts';
import type { Chosen, useChosen } from '../past/chosen.ts';
import { Choice } from '../past/choose.tsx';

const { past } = words.screen;
const said = past.report;
const KINDS = ['shift', 'week', 'month', 'order', 'size'] as const satisfies readonly ReportKind[];

export interface ReportWish {
  readonly kind: ReportKind;
  readonly at: string | undefined;
  readonly order: string | undefined;
  readonly size: string | undefined;
}

/** What the address asks for: without a word the shift that ended last, which is the one to hand over with. */
export function reportChosen(overview: PastOverview, chosen: Chosen): ReportWish {
  const { orders, sizes } = overview;
  const kind = KINDS.find((one) => one === chosen.kind) ?? 'shift';
  return {
    kind,
    at: chosen.at ?? newestOf(overview, kind),
    order: kind === 'order' ? (chosen.order ?? orders.at(-1)?.number) : undefined,
    size: kind === 'size' ? (chosen.size ?? sizes[0]?.id) : undefined,
  };
}

/** The newest that there is: a shift that is over, or the week or month of a shift that has begun. */
function newestOf(overview: PastOverview, kind: ReportKind): string | undefined {
  const { shifts, now } = overview;
  const at =
    kind === 'shift'
      ? (shifts.findLast(({ to }) => to <= now) ?? shifts.at(-1))?.from
      : momentsOf(overview, kind)[0]?.at;
  return at === undefined ? undefined : String(at);
}

function momentsOf({ shifts, begun, now, zone }: PastOverview, kind: ReportKind) {
  // a shift that was going on when the records began is the first, and began before them
  const starts = [begun ?? undefined, shifts[0]?.from].filter((start) => start !== undefined);
  const first = starts.length === 0 ? undefined : (Math.min(...starts) as EpochMs);
  return reportMoments(kind, { now, zone, first, newest: shifts.at(-1)?.from });
}

export function ReportChoices({
  overview,
  chosen,
  choose,
}: {
  readonly overview: PastOverview;
  readonly chosen: Chosen;
  readonly choose: ReturnType<typeof useChosen>[1];
}) {
  const wish = reportChosen(overview, chosen);
  return (
    <div className="choices">
      <Choice
        label={said.kindsLabel}
        options={KINDS.map((id) => ({ id, said: said.kinds[id] }))}
        chosen={wish.kind}
        choose={(kind) =>
          choose({ kind, at: undefined, order: undefined, size: undefined, known: undefined })
        }
      />
      {wish.kind === 'size' && (
        <Choice
          label={past.all.sizes}
          options={overview.sizes.map(({ id, name }) => ({ id, said: name }))}
          chosen={wish.size}
          choose={(size) => choose({ size, known: undefined })}
        />
      )}
      <Which
        options={optionsOf(overview, wish)}
        chosen={wish.kind === 'order' ? wish.order : wish.at && idAt(overview, wish.kind, wish.at)}
        choose={(one) => choose({ [wish.kind === 'order' ? 'order' : 'at']: one, known: undefined })}
      />
    </div>
  );
}

interface Option {
  readonly id: string;
  readonly said: string;
}

/** The newest first. What a link names beside what is listed is one more, so that the choice never shows another one. */
function optionsOf(overview: PastOverview, { kind, at, order }: ReportWish): readonly Option[] {
  const { orders, zone } = overview;
  if (kind === 'order') {
    const listed = orders.toReversed().map(({ number }) => ({ id: number, said: said.orderNamed(number) }));
    return order === undefined || listed.some(({ id }) => id === order)
      ? listed
      : [{ id: order, said: said.orderNamed(order) }, ...listed];
  }
  const listed = listedOf(overview, kind);
  return at === undefined || listed.some(({ id }) => id === idAt(overview, kind, at))
    ? listed
    : [{ id: at, said: isMoment(at) ? said.paper.another[kind](Number(at), zone) : at }, ...listed];
}

/** An address may hold anything; what is no moment is answered in words by the gateway. */
function isMoment(at: string): boolean {
  return /^\d{1,15}$/.test(at);
}

function listedOf(overview: PastOverview, kind: Exclude<ReportKind, 'order'>): readonly Option[] {
  const { shifts, zone } = overview;
  if (kind === 'shift')
    return shifts
      .toReversed()
      .map(({ name, from }) => ({ id: String(from), said: past.period.on(name, from, zone) }));
  return momentsOf(overview, kind).map(({ at, back }) => ({
    id: String(at),
    said: kind === 'week' ? said.weeksAgo(back) : said.monthsAgo(back, at, zone),
  }));
}

/** The option that a moment lies in; the moment itself where it lies in none of them. */
function idAt(overview: PastOverview, kind: ReportKind, at: string): string {
  const moment = isMoment(at) ? Number(at) : 0;
  const found =
    kind === 'shift'
      ? overview.shifts.find(({ from, to }) => from <= moment && moment < to)?.from
      : momentsOf(overview, kind).find((one) => isSameMoment(kind, overview.zone, one.at, moment))?.at;
  return found === undefined ? at : String(found);
}

function Which({
  options,
  chosen,
  choose,
}: {
  readonly options: readonly Option[];
  readonly chosen: string | undefined;
  readonly choose: (id: string | undefined) => void;
}) {
  return (
    <label className="period noprint">
      <span className="unseen">{said.which}</span>
      <select value={chosen ?? ''} onChange={({ target }) => choose(target.value || undefined)}>
        {options.map(({ id, said: name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}
