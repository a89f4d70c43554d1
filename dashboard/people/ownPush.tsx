import { useCallback, useEffect, useState } from 'react';
import { words } from '../app/words.ts';
import { ownId, type PushTold, pushLack, pushTold, subscribe, unsubscribe } from './push.ts';

const said = words.screen.ownPush;

interface Held {
  readonly told: PushTold;
  /** Of this browser's subscription; undefined where it has none. */
  readonly own: string | undefined;
}

/** Notices by push in this browser, turned on and off by whose it is; nothing where push is not set up. */
export function OwnPush() {
  const [held, hold] = useState<Held>();
  const [busy, setBusy] = useState(false);
  const [why, tell] = useState<string>();
  const lack = pushLack();
  const look = useCallback(async () => {
    const told = await pushTold();
    if (told) hold({ told, own: pushLack() === undefined ? await ownId() : undefined });
  }, []);
  useEffect(() => void look(), [look]);
  if (!held?.told.running || held.told.key === null) return null;
  const { key } = held.told;
  const rows = held.told.own ?? [];
  const here = rows.find(({ id }) => id === held.own);
  const others = rows.filter((row) => row !== here);
  const act = async (change: () => ReturnType<typeof subscribe>) => {
    setBusy(true);
    const sent = await change();
    const refused = sent === undefined ? said[pushLack() ?? 'failed'] : sent.ok ? undefined : sent.why;
    tell(refused);
    await look();
    setBusy(false);
  };
  return (
    <details className="own push">
      <summary>{said.title}</summary>
      <p>{here ? said.isOn : said.isOff}</p>
      <p className="second">{said.needs}</p>
      {lack !== undefined && <p className="why">{said[lack]}</p>}
      {lack === undefined && (
        <button
          type="button"
          className={here ? 'btn plain' : 'btn'}
          disabled={busy}
          onClick={() => void act(() => (here ? unsubscribe(here.id) : subscribe(key)))}
        >
          {busy ? said.busy : here ? said.turnOff : said.turnOn}
        </button>
      )}
      {others.length > 0 && (
        <p className="second">
          {said.elsewhere(others.length)}{' '}
          <button
            type="button"
            className="btn plain"
            disabled={busy}
            onClick={() => void act(() => endAll(others.map(({ id }) => id)))}
          >
            {said.turnOffElsewhere}
          </button>
        </p>
      )}
      {why !== undefined && (
        <p role="alert" className="why">
          {why}
        </p>
      )}
    </details>
  );
}

/** Until one is refused, whose words are told. */
async function endAll(ids: readonly string[]): ReturnType<typeof subscribe> {
  for (const id of ids) {
    const sent = await unsubscribe(id);
    if (!sent.ok) return sent;
  }
  return { ok: true, code: undefined, said: undefined };
}
