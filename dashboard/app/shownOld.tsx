import { whoIsSilent } from '../blank/who.ts';
import { readAt } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { words } from './words.ts';

const { age } = words.screen.line;

/**
 * Across the top of a screen, as soon as what it shows is old: who is silent, as of when it is shown, and how long ago that was,
 * in the words of the Line screen. It is told once to those who listen; the seconds go on beside it. `ofLine`: whether the
 * screen shows anything of what the PLC says.
 */
export function ShownOld({ ofLine }: { readonly ofLine: boolean }) {
  const { zone } = usePart('line');
  const moment = useMoment();
  const isTold = moment.cause === 'gateway' || moment.cause === 'tape' || (ofLine && moment.cause === 'plc');
  const who = isTold ? whoIsSilent(moment, zone) : undefined;
  const from = readAt(moment);
  return (
    <div className={who === undefined ? 'unseen' : 'shownold'}>
      <p role="status">
        {who !== undefined && (
          <Rich text={moment.sight === 'stale' ? who : `**${who}**, ${age.lastRead(from, zone)}`} />
        )}
      </p>
      {who !== undefined && <span aria-hidden="true">{age.old(Math.max(0, moment.clock - from))}</span>}
    </div>
  );
}
