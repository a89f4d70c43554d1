import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { useMoment, usePart } from '../store/use.tsx';

const said = words.screen.notices;

interface Point {
  readonly at: number;
  readonly label: string;
  readonly kind: 'done' | 'failed' | 'now' | 'coming';
}

/** Who was told when, as a line that goes dashed after now; one point a moment, evenly apart, so that each has room. */
export function ToldLine({ notice }: { readonly notice: NoticeView }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const points = pointsOf(notice, clock);
  if (notice.told.length === 0 && notice.coming.length === 0) {
    if (notice.state === 'ended') return null;
    return <p className="second">{notice.taken ? said.told.notBefore : said.told.nobody}</p>;
  }
  return (
    <section>
      <h3>{said.told.title}</h3>
      <ol className="toldline">
        {points.map(({ at, label, kind }) => (
          <li key={`${kind} ${at} ${label}`} className={kind}>
            <b>{said.when(at, clock, zone)}</b>
            <span>{label}</span>
          </li>
        ))}
      </ol>
    </section>
  );
}

function pointsOf({ at, round, told, coming, state }: NoticeView, now: number): readonly Point[] {
  const raised: Point = { at, label: said.told.raised, kind: 'done' };
  const done = told
    .filter((one) => one.round === round)
    .map(
      (one): Point => ({
        at: one.at,
        label: said.told.row(one),
        kind: one.failed ? 'failed' : 'done',
      }),
    );
  const steps = coming.map((one) => ({ at: one.at, targets: one.tell.map(said.target), out: one.leftOut }));
  const due = steps
    .filter((step) => step.at <= now)
    .map(
      (step): Point => ({ at: step.at, label: said.told.waiting(step.targets, step.out), kind: 'failed' }),
    );
  const next = steps
    .filter((step) => step.at > now)
    .map((step): Point => ({ at: step.at, label: said.told.coming(step.targets, step.out), kind: 'coming' }));
  const present: Point[] =
    state === 'ended' || next.length === 0 ? [] : [{ at: now, label: said.told.more, kind: 'now' }];
  return [raised, ...[...done, ...due].sort((a, b) => a.at - b.at), ...present, ...next];
}
