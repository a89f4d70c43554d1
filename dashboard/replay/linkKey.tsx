import { type RefObject, useEffect, useRef, useState } from 'react';
import { words } from '../app/words.ts';

const said = words.screen.past.replay.link;

/** [RP22] Copies the address of the moment and view; where the browser lets no page do so, it stands there to be copied. */
export function LinkKey({
  opener,
  address,
}: {
  readonly opener: RefObject<HTMLButtonElement | null>;
  /** What the address is now. */
  readonly address: () => string;
}) {
  const [state, set] = useState<{ readonly link: string; readonly copied: boolean }>();
  const field = useRef<HTMLInputElement>(null);
  const copy = async () => {
    const link = address();
    set({ link, copied: await copied(link) });
  };
  useEffect(() => {
    if (state && !state.copied) field.current?.select();
  }, [state]);
  return (
    <div className="noteline noprint">
      <button ref={opener} type="button" className="btn plain" onClick={() => void copy()}>
        {said.copy}
      </button>
      {state?.copied && <p role="status">{said.copied}</p>}
      {state && !state.copied && (
        <label>
          {said.byHand}
          <input ref={field} readOnly value={state.link} />
        </label>
      )}
    </div>
  );
}

/** Pages may copy only where they came encrypted or from this machine, and where a person lets them. */
async function copied(link: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(link);
    return true;
  } catch {
    return false; // it is shown instead
  }
}
