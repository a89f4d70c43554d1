import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useNetwork } from '../sheet/here.ts';
import { isKept } from '../store/store.ts';
import { useHeld } from '../store/use.tsx';

/** Entries on their way, and the last one that was kept, in words. */
export function SentBar({ top = 594 }: { readonly top?: number }) {
  const sent = useHeld((held) => held.sent);
  const { entry, sheet } = words.screen;
  const network = useNetwork();
  const waiting = sent.filter((one) => one.state === 'onItsWay' && !isKept(one.entry));
  const kept = sent.findLast((one) => one.state === 'kept');
  const [gone, keptHere] = sheet.kept.none(network.kept);
  const said =
    network.kept > 0
      ? network.isGone
        ? `${gone} ${keptHere}`
        : sheet.kept.sending(network.kept)
      : waiting.length > 0
        ? entry.onItsWay(waiting.map((one) => entry.names[one.entry.kind]).join(', '))
        : kept === undefined
          ? undefined
          : entry.kept(entry.names[kept.entry.kind]);
  return (
    <p className="sentbar" role="status" style={{ top }}>
      {said !== undefined && (
        <>
          <Mark id={waiting.length + network.kept > 0 ? 'n-taken' : 'n-shut'} size={32} />
          {said}
        </>
      )}
    </p>
  );
}
