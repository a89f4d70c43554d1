import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { useNaming } from './naming.ts';

const said = words.screen.notices;

/** What else of the same cause stands in one notice, each with its own numbers. */
export function Joined({ notice: { joined, joinedMore } }: { readonly notice: NoticeView }) {
  const naming = useNaming();
  if (joined.length === 0) return null;
  return (
    <>
      <p>{said.joined(joined.length + joinedMore)}</p>
      <ul>
        {joined.map((one) => (
          <li key={`${one.kind} ${one.station} ${one.at}`}>
            {said.joinedRow(one, said.when(one.at, naming.now, naming.zone), naming)}
          </li>
        ))}
      </ul>
    </>
  );
}
