import type { PastOverview } from '../../model/past/overview.ts';
import { reportMoments } from '../../model/report/reportMoments.ts';
import type { ReportKind } from '../../model/report/reportPeriod.ts';
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
export function reportChosen({ shifts, orders, sizes }: PastOverview, chosen: Chosen): ReportWish {
  const kind = KINDS.find((one) => one === chosen.kind) ?? 'shift';
  const last = shifts.at(-2) ?? shifts.at(-1);
  return {
    kind,
    at: chosen.at ?? (kind === 'shift' && last ? String(last.from) : undefined),
    order: kind === 'order' ? (chosen.order ?? orders.at(-1)?.number) : undefined,
    size: kind === 'size' ? (chosen.size ?? sizes[0]?.id) : undefined,
  };
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
        options={optionsOf(overview, wish.kind)}
        chosen={wish.kind === 'order' ? wish.order : wish.at}
        choose={(one) => choose({ [wish.kind === 'order' ? 'order' : 'at']: one, known: undefined })}
      />
    </div>
  );
}

interface Option {
  readonly id: string;
  readonly said: string;
}

/** The newest first. */
function optionsOf({ shifts, orders, now, zone }: PastOverview, kind: ReportKind): readonly Option[] {
  if (kind === 'order')
    return orders.toReversed().map(({ number }) => ({ id: number, said: said.orderNamed(number) }));
  if (kind === 'shift')
    return shifts
      .toReversed()
      .map(({ name, from }) => ({ id: String(from), said: past.period.on(name, from, zone) }));
  return reportMoments(kind, now).map((at, back) => ({
    id: back === 0 ? '' : String(at),
    said: kind === 'week' ? said.weeksAgo(back) : said.monthsAgo(back, at, zone),
  }));
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
