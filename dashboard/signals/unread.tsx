import { words } from '../app/words.ts';

const said = words.screen.past.signals;
/** Stretches told one by one; the newest are what somebody may still remember. */
const SHOWN_MOST = 6;

/** A stretch of the tape that cannot be read, as the gateway tells it. */
export interface UnreadStretch {
  readonly from: number;
  readonly at: { readonly from: number; readonly to: number } | null;
  readonly trouble: { readonly what: string; readonly why: string; readonly mend: string };
}

/** What of the tape is damaged: when it was, what happened, and what can be done. */
export function Unread({
  stretches,
  zone,
}: {
  readonly stretches: readonly UnreadStretch[];
  readonly zone: string;
}) {
  return (
    <section className="sheet server">
      <h2>{said.unread(stretches.length)}</h2>
      {stretches.slice(-SHOWN_MOST).map(({ from, at, trouble }) => (
        <p className="servertrouble" key={from}>
          <b>{at ? said.unreadTime(at.from, at.to, zone) : said.unreadNever}</b> {trouble.what} {trouble.why}{' '}
          <span>{said.mendIt(trouble.mend)}</span>
        </p>
      ))}
    </section>
  );
}
