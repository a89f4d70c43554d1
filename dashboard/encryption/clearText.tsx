import { useEffect, useState } from 'react';
import { words } from '../app/words.ts';
import { useHeld } from '../store/use.tsx';

const said = words.screen.clearText;
/** How long until it is asked again where nobody answered. Milliseconds. */
const AGAIN_MS = 10_000;

/**
 * Stands at the foot of every screen that is served in clear text beyond the gateway's machine, as long as that is so:
 * nobody can close it. It takes room of its own, so that it covers nothing.
 */
export function ClearText() {
  const told = useTold();
  const [came, note] = useState(false);
  useEffect(() => note(cameClear(location)), []);
  const shown = told || came;
  useEffect(() => {
    document.documentElement.toggleAttribute('data-clear-text', shown);
    // wall and panel are scaled as a whole into what room there is
    dispatchEvent(new Event('resize'));
  }, [shown]);
  if (!shown) return null;
  return (
    <aside className="cleartext noprint" aria-label={said.label}>
      <p>{said.mark}</p>
    </aside>
  );
}

/** The height that a screen has, without the mark. px */
export function roomHeight(): number {
  return innerHeight - (document.querySelector<HTMLElement>('.cleartext')?.offsetHeight ?? 0);
}

/** Whether this very page came over the network in clear text, whatever the gateway knows of what stands between. */
export function cameClear({ protocol, hostname }: Pick<Location, 'protocol' | 'hostname'>): boolean {
  const here = hostname === 'localhost' || hostname === '[::1]' || /^127\.\d+\.\d+\.\d+$/.test(hostname);
  return protocol === 'http:' && !here;
}

/** What the gateway says; asked anew with each connection, since another start may have other options. */
function useTold(): boolean {
  const isUp = useHeld((held) => held.link === 'up');
  const [told, tell] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is asked because the connection is another one
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let over = false;
    const ask = async () => {
      const answer = await asked();
      if (over) return;
      if (answer === undefined) timer = setTimeout(() => void ask(), AGAIN_MS);
      else tell(answer);
    };
    void ask();
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, [isUp]);
  return told;
}

/** Undefined where nobody answers. A gateway that has no such address has no such option either. */
async function asked(): Promise<boolean | undefined> {
  try {
    const response = await fetch('/api/encryption');
    if (!response.ok) return response.status === 404 ? false : undefined;
    return ((await response.json()) as { readonly clearText: boolean }).clearText;
  } catch {
    return undefined;
  }
}
