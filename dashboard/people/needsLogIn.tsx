import { type Act, mayDo } from '../../model/access/access.ts';
import { words } from '../app/words.ts';
import { useSession } from './session.ts';

/** Says, where something cannot be done from here as it is, what it takes; before anything is typed in vain. */
export function NeedsLogIn({ act }: { readonly act: Act }) {
  const session = useSession();
  if (session === undefined || session.may.includes(act)) return null;
  const said = words.people;
  const { what } =
    session.person === null
      ? said.needsLogIn(act)
      : session.person.mustChoose
        ? said.chooseFirst
        : said.notYours(act);
  return <p className="needslogin">{what}</p>;
}

/** Whether something can be done at a panel as it is: by its position, or by who is logged in there. */
export function usePanelMay(act: Act): boolean {
  const session = useSession();
  const person = session?.person;
  const roles = person && !person.mustChoose ? person.roles : [];
  return mayDo(act, { place: 'panel', roles }, { people: session?.people === true, closed: false });
}
