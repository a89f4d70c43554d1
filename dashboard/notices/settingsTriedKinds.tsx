import type { NoticeSettings } from '../../model/notices/settings.ts';
import type { Tried } from '../../model/notices/tried.ts';
import type { TriedKind } from '../../model/notices/triedKinds.ts';
import { words } from '../app/words.ts';
import { useTriedDraft } from './triedDraft.ts';

const said = words.screen.noticeSettings.triedKinds;
const { kinds: kindWords } = words.noticeSaid;

/** [NT1] What settings would have told in the days looked at: kind by kind, and person by person. */
export function TriedKindsSheet({
  tried: inUse,
  days,
  path,
  settings,
  mayDraft,
}: {
  readonly tried: Tried;
  readonly days: number;
  readonly path: string;
  /** As they are drafted. */
  readonly settings: NoticeSettings;
  /** Whether there is a draft that can be tried from here. */
  readonly mayDraft: boolean;
}) {
  const draft = useTriedDraft(path, settings);
  const drafted = mayDraft ? draft.tried : undefined;
  const tried = drafted ?? inUse;
  const { kinds, people, nobody } = tried.ofKinds;
  return (
    <section className="sheet triedkinds" aria-labelledby="triedkinds">
      <h2 id="triedkinds">{said.title(days)}</h2>
      <p className="second">{said.about}</p>
      {mayDraft && !drafted && (
        <button type="button" className="btn plain" disabled={draft.isOnItsWay} onClick={draft.ask}>
          {said.draft.button}
        </button>
      )}
      <p role="status" className={drafted ? 'saying' : ''}>
        {mayDraft && (draft.isOnItsWay ? said.draft.waits : drafted ? said.draft.shown : draft.trouble)}
      </p>
      <table>
        <Head columns={said.columns} />
        <tbody>
          {kinds.map((row) => (
            <KindRow key={row.kind} row={row} tried={tried} />
          ))}
        </tbody>
      </table>
      <p className="second">{said.joined}</p>
      <h3>{said.people.title}</h3>
      {people.length === 0 ? (
        <p className="saying">{said.people.none}</p>
      ) : (
        <>
          <table>
            <Head columns={said.people.columns} />
            <tbody>
              {people.map(({ person, notices }) => (
                <tr key={person} data-person={person}>
                  <th scope="row">{said.people.person(person)}</th>
                  <td className="n">
                    <b>{words.count(notices)}</b>
                  </td>
                  <td className="n">{said.aWeek(notices, tried.from, tried.to)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {nobody > 0 && <p className="saying">{said.people.nobody(nobody)}</p>}
          <p className="second">{said.people.about}</p>
        </>
      )}
    </section>
  );
}

function Head({ columns }: { readonly columns: readonly string[] }) {
  return (
    <thead>
      <tr>
        {columns.map((column, place) => (
          <th key={column} scope="col" className={place > 0 && column !== '' ? 'n' : ''}>
            {column}
          </th>
        ))}
      </tr>
    </thead>
  );
}

function KindRow({
  row: { kind, said: what, raised },
  tried: { from, to },
}: {
  readonly row: TriedKind;
  readonly tried: Tried;
}) {
  const isCounted = what.kind === 'counted';
  return (
    <tr data-kind={kind}>
      <th scope="row">{kindWords[kind]}</th>
      <td className="n">{isCounted ? <b>{said.notices(what)}</b> : what.kind === 'off' ? said.off : '–'}</td>
      <td className="n">{isCounted ? said.aWeek(what.notices, from, to) : '–'}</td>
      <td className="n">{words.count(raised)}</td>
      <td className="how">{what.kind === 'untold' ? said.untold(what.why) : isCounted && said.how[kind]}</td>
    </tr>
  );
}
