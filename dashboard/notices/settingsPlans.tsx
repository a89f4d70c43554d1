import {
  NOTICE_LEVELS,
  type Plan,
  type RecipientSettings,
  type Step,
  type Target,
} from '../../model/notices/recipients.ts';
import { words } from '../app/words.ts';
import { NumberField, Several, withOne } from './settingsFields.tsx';
import { OnlyThese } from './settingsPerson.tsx';
import { STEP_MINUTES } from './settingsTroubles.ts';
import type { Choosable } from './settingsWho.tsx';

const said = words.screen.noticeWho.plans;
const { levels: levelNames } = words.noticeSaid;
const PLANS_MOST = 50;
const STEPS_MOST = 10;
/** A new step comes so long after the one before it. Minutes. */
const NEXT_STEP = 10;

/** Who first, and who after that, as long as nobody takes it. */
export function Plans({
  who,
  change,
  stations,
  nameOf,
}: {
  readonly who: RecipientSettings;
  readonly change: (who: RecipientSettings) => void;
  readonly stations: Choosable['stations'];
  /** A number, and why that person would not be reached, where that is so. */
  readonly nameOf: NameOf;
}) {
  const { plans } = who;
  const put = (next: readonly Plan[]) => change({ ...who, plans: next });
  const targets = targetsIn(who, nameOf);
  return (
    <section className="sheet" aria-labelledby="plans">
      <h2 id="plans">{said.title}</h2>
      <p className="second">{said.about}</p>
      {plans.map((plan, place) => (
        <PlanForm
          // biome-ignore lint/suspicious/noArrayIndexKey: the first that fits counts, so a plan is its place
          key={place}
          plan={plan}
          place={place + 1}
          stations={stations}
          targets={targets}
          change={(next) => put(withOne(plans, place, next))}
        />
      ))}
      {plans.length < PLANS_MOST && targets.length > 0 && (
        <button
          type="button"
          className="btn plain"
          onClick={() => put([...plans, { steps: [{ afterMinutes: 0, tell: [] }] }])}
        >
          {said.add}
        </button>
      )}
    </section>
  );
}

type NameOf = (person: string) => string;

interface NamedTarget {
  readonly id: string;
  readonly name: string;
  readonly target: Target;
}

function targetsIn({ recipients, rotas }: RecipientSettings, nameOf: NameOf): readonly NamedTarget[] {
  const all: readonly Target[] = [
    ...recipients.map(({ person }) => ({ kind: 'person' as const, person })),
    ...rotas.map(({ id }) => ({ kind: 'rota' as const, rota: id })),
  ];
  return all.map((target) => named(target, nameOf)).filter(({ id }) => !id.endsWith(' '));
}

function named(target: Target, nameOf: NameOf): NamedTarget {
  return target.kind === 'person'
    ? { id: `person ${target.person}`, name: said.person(nameOf(target.person)), target }
    : { id: `rota ${target.rota}`, name: said.rota(target.rota), target };
}

function PlanForm({
  plan,
  place,
  stations,
  targets,
  change,
}: {
  readonly plan: Plan;
  readonly place: number;
  readonly stations: Choosable['stations'];
  readonly targets: readonly NamedTarget[];
  readonly change: (plan: Plan | undefined) => void;
}) {
  const { levels, stations: own, ...rest } = plan;
  const { steps } = plan;
  const last = steps.at(-1)?.afterMinutes ?? 0;
  return (
    <div className="plan">
      <div className="formrow">
        <h3>{said.plan(place)}</h3>
        <button type="button" className="btn plain" onClick={() => change(undefined)}>
          {said.remove(place)}
        </button>
      </div>
      <OnlyThese
        label={said.levels}
        all={NOTICE_LEVELS.map((id) => ({ id, name: levelNames[id] }))}
        chosen={levels}
        choose={(next) =>
          change({ ...rest, ...(own ? { stations: own } : {}), ...(next ? { levels: next } : {}) })
        }
      />
      <OnlyThese
        label={said.stations}
        all={stations}
        chosen={own}
        choose={(next) =>
          change({ ...rest, ...(levels ? { levels } : {}), ...(next ? { stations: next } : {}) })
        }
      />
      <ol className="plansteps">
        {steps.map((step, at) => (
          <StepForm
            // biome-ignore lint/suspicious/noArrayIndexKey: a step is its place
            key={at}
            step={step}
            targets={targets}
            change={(next) => change({ ...plan, steps: withOne(steps, at, next) })}
          />
        ))}
      </ol>
      {steps.length < STEPS_MOST && (
        <button
          type="button"
          className="btn plain"
          onClick={() =>
            change({
              ...plan,
              steps: [...steps, { afterMinutes: steps.length === 0 ? 0 : last + NEXT_STEP, tell: [] }],
            })
          }
        >
          {said.addStep}
        </button>
      )}
    </div>
  );
}

function StepForm({
  step,
  targets,
  change,
}: {
  readonly step: Step;
  readonly targets: readonly NamedTarget[];
  readonly change: (step: Step | undefined) => void;
}) {
  const chosen = step.tell.map((target) => named(target, (person) => person));
  // somebody who is told no more stays among them until taken out
  const all = [...targets, ...chosen.filter(({ id }) => !targets.some((one) => one.id === id))];
  return (
    <li className="formrow">
      <span className="after">
        {said.after}{' '}
        <NumberField
          value={step.afterMinutes}
          bounds={STEP_MINUTES}
          label={said.minutes}
          change={(afterMinutes) => change({ ...step, afterMinutes })}
        />{' '}
        {said.min}
      </span>
      <Several
        label={said.tell}
        all={all}
        chosen={chosen.map(({ id }) => id)}
        choose={(ids) =>
          change({
            ...step,
            tell: all.filter(({ id }) => ids.includes(id)).map(({ target }) => target),
          })
        }
      />
      <button type="button" className="btn plain" onClick={() => change(undefined)}>
        {said.removeStep}
      </button>
    </li>
  );
}
