import { words } from '../app/words.ts';
import type { useReplay } from './useReplay.ts';

const said = words.screen.past.replay;

/** What went on for so long since it was opened can be read on. */
const GONE_ON_MS = 30_000;

/** How far the tape is read, or why it could not be. */
export function Opening({ progress }: { readonly progress: ReturnType<typeof useReplay>[1]['progress'] }) {
  if (progress.kind === 'open')
    return progress.opened.whole ? null : <p className="saying">{said.as.notKnown}</p>;
  if (progress.kind === 'opening')
    return (
      <p className="saying" role="status">
        {said.opening(progress.share)}
      </p>
    );
  return (
    <p className="saying" role="alert">
      {[said.failed(progress.trouble), progress.why, progress.mend].filter(Boolean).join(' ')}
      <button type="button" className="btn plain" onClick={() => location.reload()}>
        {said.again}
      </button>
    </p>
  );
}

/** What is opened is read up to when it was opened; what came since is read when a person wants it. */
export function GoneOn({
  until,
  now,
  zone,
  readOn,
}: {
  readonly until: number;
  readonly now: number;
  readonly zone: string;
  readonly readOn: (until: number) => void;
}) {
  if (now - until <= GONE_ON_MS) return null;
  return (
    <p className="saying">
      {said.goesOn.upTo(until, zone)}
      <button type="button" className="btn plain" onClick={() => readOn(now)}>
        {said.goesOn.read}
      </button>
    </p>
  );
}
