import { useState } from 'react';
import type { PastStop } from '../../model/past/stopsPast.ts';
import { words } from '../app/words.ts';
import { Typed } from '../matters/answers.tsx';
import { useEnter, useHeld } from '../store/use.tsx';

const ANSWERS_SHOWN = 4;
/** Once an answer is kept, the list is asked for again after so long. */
const AGAIN_MS = 700;

/** One tap says why a stop was; "something else" last, which opens a line to type in. */
export function WhyKeys({ stop, again }: { readonly stop: PastStop; readonly again: () => void }) {
  const enter = useEnter();
  const [typing, setTyping] = useState(false);
  const sent = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) => state !== 'refused' && entry.kind === 'reason' && entry.stop === stop.id,
    ),
  );
  if (sent || stop.answers.length === 0) return null;
  const say = (reason: string, more?: string) => {
    enter({ kind: 'reason', stop: stop.id, reason, ...(more === undefined ? {} : { words: more }) });
    setTimeout(again, AGAIN_MS);
  };
  if (typing)
    return <Typed label={words.screen.line.matters.otherWords} keep={(typed) => say('other', typed)} />;
  return (
    <div className="why noprint">
      {stop.answers.slice(0, ANSWERS_SHOWN).map(({ id, name }) => (
        <button type="button" key={id} className="answer" onClick={() => say(id)}>
          {name}
        </button>
      ))}
      <button type="button" className="answer" onClick={() => setTyping(true)}>
        {words.screen.past.stops.somethingElse}
      </button>
    </div>
  );
}
