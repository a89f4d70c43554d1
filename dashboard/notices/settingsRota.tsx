import type { RecipientSettings } from '../../model/notices/recipients.ts';
import type { Rota, Substitute } from '../../model/notices/recipientRota.ts';
import { words } from '../app/words.ts';
import { useMoment } from '../store/use.tsx';
import { NumberField, OneOf, TextField, withOne } from './settingsFields.tsx';
import { DAYS_OF_TURN } from './settingsTroubles.ts';

const said = words.screen.noticeWho.rotas;
const ROTAS_MOST = 20;
const TURNS_MOST = 100;
const NAME_MOST = 80;

interface Turned {
  readonly rota: Rota;
  readonly people: readonly string[];
  /** A number, and why that person would not be reached, where that is so. */
  readonly nameOf: (person: string) => string;
  readonly change: (rota: Rota | undefined) => void;
}

/** Who is on call, turn by turn. */
export function Rotas({
  who,
  change,
  nameOf,
}: {
  readonly who: RecipientSettings;
  readonly change: (who: RecipientSettings) => void;
  readonly nameOf: Turned['nameOf'];
}) {
  const { rotas, recipients } = who;
  const { clock } = useMoment();
  const people = recipients.map(({ person }) => person).filter((person) => person !== '');
  const fresh = (): Rota => ({
    id: `rota-${rotas.length + 1}`,
    first: new Date(clock).toISOString().slice(0, 10),
    clock: '06:00',
    days: 7,
    turns: people.slice(0, 1),
    substitutes: [],
  });
  return (
    <section className="sheet" aria-labelledby="rotas">
      <h2 id="rotas">{said.title}</h2>
      <p className="second">{people.length === 0 ? said.noPeople : said.about}</p>
      {rotas.map((rota, place) => (
        <RotaForm
          // biome-ignore lint/suspicious/noArrayIndexKey: a name changes while it is typed
          key={place}
          rota={rota}
          people={people}
          nameOf={nameOf}
          change={(next) => change({ ...who, rotas: withOne(rotas, place, next) })}
        />
      ))}
      {rotas.length < ROTAS_MOST && people.length > 0 && (
        <button
          type="button"
          className="btn plain"
          onClick={() => change({ ...who, rotas: [...rotas, fresh()] })}
        >
          {said.add}
        </button>
      )}
    </section>
  );
}

function RotaForm({ rota, people, nameOf, change }: Turned) {
  const put = (part: Partial<Rota>) => change({ ...rota, ...part });
  return (
    <div className="rota">
      <div className="formrow">
        <TextField label={said.id} value={rota.id} most={NAME_MOST} change={(id) => put({ id: id.trim() })} />
        <TextField kind="date" label={said.first} value={rota.first} change={(first) => put({ first })} />
        <TextField kind="clock" label={said.clock} value={rota.clock} change={(clock) => put({ clock })} />
        <div className="textfield">
          <span>{said.days}</span>
          <NumberField
            value={rota.days}
            bounds={DAYS_OF_TURN}
            label={said.days}
            change={(days) => put({ days })}
          />
        </div>
        <button type="button" className="btn plain" onClick={() => change(undefined)}>
          {said.remove(rota.id)}
        </button>
      </div>
      <Turns rota={rota} people={people} nameOf={nameOf} change={change} />
      <Substitutes rota={rota} people={people} nameOf={nameOf} change={change} />
    </div>
  );
}

function Turns({ rota, people, nameOf, change }: Turned) {
  const { turns } = rota;
  const put = (next: readonly string[]) => change({ ...rota, turns: next });
  return (
    <fieldset className="turns">
      <legend>{said.turns}</legend>
      <ol className="formrow">
        {turns.map((person, place) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: somebody may have more turns than one
          <li key={place}>
            <PersonChoice
              label={said.turn(place + 1)}
              person={person}
              people={people}
              nameOf={nameOf}
              choose={(next) => put(withOne(turns, place, next))}
            />
            <button
              type="button"
              className="btn plain small"
              aria-label={said.removeTurn(person, place + 1)}
              onClick={() => put(withOne(turns, place, undefined))}
            >
              ×
            </button>
          </li>
        ))}
        <li>
          {turns.length < TURNS_MOST && (
            <button
              type="button"
              className="btn plain"
              onClick={() => put([...turns, people.find((one) => !turns.includes(one)) ?? people[0] ?? ''])}
            >
              {said.addTurn}
            </button>
          )}
        </li>
      </ol>
    </fieldset>
  );
}

function Substitutes({ rota, people, nameOf, change }: Turned) {
  const { substitutes, turns, first, clock } = rota;
  const put = (next: readonly Substitute[]) => change({ ...rota, substitutes: next });
  const fresh = (): Substitute => {
    const of = turns[0] ?? people[0] ?? '';
    return { of, by: people.find((one) => one !== of) ?? '', from: `${first}T${clock}`, to: '' };
  };
  return (
    <fieldset className="turns">
      <legend>{said.substitutes}</legend>
      {substitutes.map((one, place) => {
        const set = (part: Partial<Substitute>) => put(withOne(substitutes, place, { ...one, ...part }));
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place
          <div key={place} className="formrow">
            <span className="textfield">
              <span>{said.by}</span>
              <PersonChoice
                label={said.by}
                person={one.by}
                people={people}
                nameOf={nameOf}
                choose={(by) => set({ by })}
              />
            </span>
            <span className="textfield">
              <span>{said.of}</span>
              <PersonChoice
                label={said.of}
                person={one.of}
                people={people}
                nameOf={nameOf}
                choose={(of) => set({ of })}
              />
            </span>
            <Reading label={said.from} value={one.from} change={(from) => set({ from })} />
            <Reading label={said.to} value={one.to} change={(to) => set({ to })} />
            <button
              type="button"
              className="btn plain"
              onClick={() => put(withOne(substitutes, place, undefined))}
            >
              {said.removeSubstitute}
            </button>
          </div>
        );
      })}
      <button type="button" className="btn plain" onClick={() => put([...substitutes, fresh()])}>
        {said.addSubstitute}
      </button>
    </fieldset>
  );
}

/** A day and a clock, as 2026-03-30T06:00. */
function Reading({
  label,
  value,
  change,
}: {
  readonly label: string;
  readonly value: string;
  readonly change: (value: string) => void;
}) {
  const [day = '', time = ''] = value.split('T');
  return (
    <>
      <TextField kind="date" label={label} value={day} change={(next) => change(`${next}T${time}`)} />
      <TextField
        kind="clock"
        label={said.clock}
        value={time}
        change={(next) => change(`${day}T${next.replaceAll('T', '')}`)}
      />
    </>
  );
}

/** One of those who are told; somebody who is told no more stays shown until another is chosen. */
function PersonChoice({
  label,
  person,
  people,
  nameOf,
  choose,
}: {
  readonly label: string;
  readonly person: string;
  readonly people: readonly string[];
  readonly nameOf: Turned['nameOf'];
  readonly choose: (person: string) => void;
}) {
  const all = [...new Set([...(people.includes(person) ? [] : [person]), ...people])];
  return (
    <OneOf label={label} all={all.map((id) => ({ id, name: nameOf(id) }))} chosen={person} choose={choose} />
  );
}
