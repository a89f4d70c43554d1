import { useState } from 'react';
import { words } from '../app/words.ts';
import { send, useOwnNumber, useSession } from '../people/session.ts';
import { usePart } from '../store/use.tsx';

const said = words.screen.noticeWho.trial;
const wayName = words.screen.noticeWho.people.way;

interface Became {
  readonly way: string;
  /** Undefined while it is on its way. */
  readonly said: string | undefined;
}

/** Sends a trial to one person, and says what became of it: for whoever sees to notices, and for each person to themselves. */
export function Trial({ person, ways }: { readonly person: string; readonly ways: readonly string[] }) {
  const line = usePart('line').id;
  const session = useSession();
  const own = useOwnNumber();
  const [became, become] = useState<Became>();
  const may = session === undefined || session.may.includes('noticeSettings') || own === person;
  if (!may || person === '' || ways.length === 0) return null;
  const isOnItsWay = became !== undefined && became.said === undefined;
  const tryWay = async (way: string) => {
    become({ way, said: undefined });
    const sent = await send('POST', `/api/lines/${encodeURIComponent(line)}/notices/trial`, { person, way });
    become({ way, said: sent.ok ? (sent.said ?? '') : sent.why });
  };
  return (
    <div className="trial">
      {ways.map((way) => (
        <button
          key={way}
          type="button"
          className="btn plain"
          disabled={isOnItsWay}
          aria-label={said.buttonOf(wayName(way), person)}
          onClick={() => void tryWay(way)}
        >
          {said.button(wayName(way))}
        </button>
      ))}
      <p role="status">{became && said.became(wayName(became.way), became.said ?? said.onItsWay)}</p>
    </div>
  );
}
