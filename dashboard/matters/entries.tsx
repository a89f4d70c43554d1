import { words } from '../app/words.ts';
import { KeptBar } from '../sheet/kept.tsx';
import { LeftLink } from '../sheet/leftSaid.tsx';
import { isKept, type Sent } from '../store/store.ts';
import { useDismiss, useHeld } from '../store/use.tsx';

/**
 * What was entered on this screen: on its way until confirmed, and refused with its mend until it was read. `saidBelow`: what
 * the page says by itself where it was entered.
 */
export function Entries({ saidBelow }: { readonly saidBelow?: ((sent: Sent) => boolean) | undefined }) {
  const sent = useHeld((held) => held.sent);
  // of what is kept as long as there is no network there may be many: they are counted
  const single = sent.filter(
    (one) =>
      one.state !== 'aside' && (one.state !== 'onItsWay' || !isKept(one.entry)) && saidBelow?.(one) !== true,
  );
  const dismiss = useDismiss();
  const { entry } = words.screen;
  return (
    <div className="entries" role="status">
      <KeptBar />
      <LeftLink />
      {single.map((one) => (
        <p key={one.entry.id} className={one.state}>
          <span>
            {one.state === 'onItsWay'
              ? entry.onItsWay(entry.names[one.entry.kind])
              : one.state === 'kept'
                ? entry.kept(entry.names[one.entry.kind])
                : entry.refused(one.trouble ?? '', one.why ?? '', one.mend ?? '')}
          </span>
          {one.state === 'refused' && (
            <button type="button" className="btn plain" onClick={() => dismiss(one.entry.id)}>
              {entry.dismiss}
            </button>
          )}
        </p>
      ))}
    </div>
  );
}
