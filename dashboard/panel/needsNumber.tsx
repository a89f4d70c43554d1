import type { ReactNode } from 'react';
import type { Act } from '../../model/access/access.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { usePanelMay } from '../people/needsLogIn.tsx';
import { PersonFlow } from '../people/panelPerson.tsx';
import { useSession } from '../people/session.ts';
import { BackKey } from './key.tsx';
import { FlowHead } from './panel-head.tsx';

/** A page of what bears a person’s number: it asks who is there first, and says it to whom it is not given. */
export function NeedsNumber({
  here,
  act,
  back,
  children,
}: {
  readonly here: PositionView;
  readonly act: Act;
  readonly back: () => void;
  readonly children: ReactNode;
}) {
  const may = usePanelMay(act);
  const person = useSession()?.person;
  if (may) return children;
  if (!person || person.mustChoose) return <PersonFlow here={here} close={back} done={LOGGED_IN} />;
  const { what, why, mend } = words.people.notYours(act);
  return (
    <>
      <FlowHead here={here} title={words.screen.panel.notTaken} right="" />
      <p className="told" style={{ top: 220 }} role="alert">
        <b>{what}</b>
        <br />
        {why} {mend}
      </p>
      <BackKey onTap={back} />
    </>
  );
}

/** Nothing is to be done then: the page is drawn, as the session says who is there. */
const LOGGED_IN = () => {};
