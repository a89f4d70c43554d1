import { type Unreached, unreached } from '../../model/notices/reach.ts';
import type { Recipient, RecipientSettings } from '../../model/notices/recipients.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { withOne } from './settingsFields.tsx';
import { Person } from './settingsPerson.tsx';
import { Plans } from './settingsPlans.tsx';
import { Rotas } from './settingsRota.tsx';
import { waysIn, type WaysTold } from './settingsWays.tsx';

const said = words.screen.noticeWho.people;
const PEOPLE_MOST = 200;

interface Named {
  readonly id: string;
  readonly name: string;
}

/** What can be chosen here. */
export interface Choosable {
  /** Why somebody who is told would not be reached now; undefined where they would. */
  readonly mark: (recipient: Recipient) => Unreached | undefined;
  readonly ways: readonly string[];
  readonly stations: readonly Named[];
  readonly shifts: readonly Named[];
}

/** Who is told, in turns and step by step. */
export function Who({
  who,
  change,
  overview,
  ways,
}: {
  readonly who: RecipientSettings;
  readonly change: (who: RecipientSettings) => void;
  readonly overview: PastOverview | undefined;
  readonly ways: WaysTold | undefined;
}) {
  const reach = ways?.reach;
  const mark = (recipient: Recipient) => reach && unreached(recipient, reach);
  const choosable: Choosable = {
    mark,
    ways: waysIn(ways),
    stations: overview?.stations.map(({ id, name }) => ({ id, name })) ?? [],
    shifts: shiftsIn(overview, who),
  };
  const { recipients } = who;
  const nameOf = (person: string) => {
    const recipient = recipients.find((one) => one.person === person);
    const why = recipient && mark(recipient);
    return why === undefined ? person : said.marked(person, said.unreachedShort[why]);
  };
  return (
    <>
      <section className="sheet" aria-labelledby="people">
        <h2 id="people">{said.title}</h2>
        <p className="second">{recipients.length === 0 ? said.none : said.about}</p>
        <ul className="persons">
          {recipients.map((recipient, place) => (
            <Person
              // biome-ignore lint/suspicious/noArrayIndexKey: a number changes while it is typed
              key={place}
              recipient={recipient}
              choosable={choosable}
              change={(next) => change({ ...who, recipients: withOne(recipients, place, next) })}
            />
          ))}
        </ul>
        {recipients.length < PEOPLE_MOST && (
          <button
            type="button"
            className="btn plain"
            onClick={() => change({ ...who, recipients: [...recipients, NEW] })}
          >
            {said.add}
          </button>
        )}
      </section>
      <Rotas who={who} change={change} nameOf={nameOf} />
      <Plans who={who} change={change} stations={choosable.stations} nameOf={nameOf} />
    </>
  );
}

const NEW: Recipient = { person: '', ways: ['page'], when: { quiet: [] } };

/** Shifts that there were of late, and those that somebody is bound to already. */
function shiftsIn(overview: PastOverview | undefined, { recipients }: RecipientSettings): readonly Named[] {
  const names = new Map<string, string>();
  for (const { rule, name } of overview?.shifts ?? []) names.set(rule, name);
  for (const { when } of recipients)
    for (const shift of when.shifts ?? []) if (!names.has(shift)) names.set(shift, shift);
  return [...names].map(([id, name]) => ({ id, name }));
}
