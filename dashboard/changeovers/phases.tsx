import type { CSSProperties } from 'react';
import type { OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import { words } from '../app/words.ts';

const said = words.screen.past.changeovers;

/** Until the trial, the trial, the run-up: panels as long as they lasted, each beside what is usual. */
export function Phases({ opened }: { readonly opened: OpenedChangeover }) {
  const { changeover, usual, strip } = opened;
  const { at, trialBegan, productionBack, over, trial, untilTrial, runUp, ends } = changeover;
  const share = (from: number, to: number) => `${(100 * (to - from)) / (strip.to - strip.from)}%`;
  const trialEnd = productionBack ?? over;
  return (
    <ol
      className="phases"
      style={{ '--begin': share(strip.from, at), '--long': share(at, over) } as CSSProperties}
    >
      <Phase
        name={trial === undefined ? said.phases.stood : said.phases.untilTrial}
        ms={untilTrial}
        grow={(trialBegan ?? trialEnd) - at}
        usual={usual?.untilTrial}
      />
      {trial !== undefined && (
        <Phase
          name={said.phases.trial}
          ms={trial}
          grow={trialEnd - (trialBegan ?? trialEnd)}
          usual={usual?.trial}
          more={said.trialCartons(changeover.trialCartons)}
        />
      )}
      {runUp !== undefined && (
        <Phase
          name={ends === 'atRate' ? said.phases.runUp : said.phases.runUpOpen}
          ms={runUp}
          grow={over - trialEnd}
          usual={usual?.runUp}
          last
        />
      )}
    </ol>
  );
}

function Phase({
  name,
  ms,
  grow,
  usual,
  more,
  last = false,
}: {
  readonly name: string;
  readonly ms: number;
  readonly grow: number;
  readonly usual: number | undefined;
  readonly more?: string;
  readonly last?: boolean;
}) {
  return (
    <li className={last ? 'made' : ''} style={{ flexGrow: Math.max(1, grow) }}>
      {name}
      <b>{said.lasted(ms)}</b>
      <small>{said.usual(usual)}</small>
      {more !== undefined && <small>{more}</small>}
    </li>
  );
}
