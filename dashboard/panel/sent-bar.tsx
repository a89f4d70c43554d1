import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useHeld } from '../store/use.tsx';

/** Entries on their way, and the last one that was kept, in words. */
export function SentBar({ top = 594 }: { readonly top?: number }) {
  const sent = useHeld((held) => held.sent);
  const { entry } = words.screen;
  const waiting = sent.filter((one) => one.state === 'onItsWay');
  const kept = sent.findLast((one) => one.state === 'kept');
  const said =
    waiting.length > 0
      ? entry.onItsWay(waiting.map((one) => entry.names[one.entry.kind]).join(', '))
      : kept === undefined
        ? undefined
        : entry.kept(entry.names[kept.entry.kind]);
  return (
    <p className="sentbar" role="status" style={{ top }}>
      {said !== undefined && (
        <>
          <Mark id={waiting.length > 0 ? 'n-taken' : 'n-shut'} size={32} />
          {said}
        </>
      )}
    </p>
  );
}
