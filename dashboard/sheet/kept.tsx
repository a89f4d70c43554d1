import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import type { Sent } from '../store/store.ts';
import { useAgain, useDismiss } from '../store/use.tsx';
import { useNetwork } from './here.ts';

const said = words.screen.sheet.kept;
const { names } = words.screen.entry;

/** Without a network it says so and counts what it keeps; with one again, how much is still on the way. */
export function KeptBar({
  always = false,
}: {
  /** Also where nothing is kept yet. */ readonly always?: boolean;
}) {
  const { isGone, kept } = useNetwork();
  if (kept === 0 && !(isGone && always)) return null;
  const [bold, rest] = said.none(kept);
  return (
    <p className={isGone ? 'keptbar gone' : 'keptbar'} role="status">
      <Mark id={isGone ? 'm-no-network' : 'n-taken'} size={30} />
      <span>
        {isGone ? (
          <>
            <b>{bold}</b> {rest}
          </>
        ) : (
          said.sending(kept)
        )}
      </span>
    </p>
  );
}

/** What the gateway did not take: why, and how to mend it. It stays until a person sends it again or leaves it out. */
export function RefusedHere() {
  const { refused } = useNetwork();
  const again = useAgain();
  const dismiss = useDismiss();
  if (refused.length === 0) return null;
  return (
    <section className="refusedhere" role="alert">
      <h2>{said.refused(refused.length)}</h2>
      {refused.map((sent) => (
        <div key={sent.entry.id}>
          <p>
            <b>{refusedSaid(sent)}</b>: {sent.trouble} {sent.why} {sent.mend}
          </p>
          <div className="sheetkeys">
            <button type="button" className="sheetkey" onClick={() => again(sent.entry.id)}>
              {said.again}
            </button>
            <button type="button" className="sheetkey" onClick={() => dismiss(sent.entry.id)}>
              {said.understood}
            </button>
          </div>
        </div>
      ))}
    </section>
  );
}

/** What was entered, so that it can be done again: `number read, 5.2: 31.5`. */
export function refusedSaid({ entry }: Pick<Sent, 'entry'>): string {
  return said.entry(names[entry.kind], entry);
}
