import type { CSSProperties } from 'react';
import type { OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Rich } from '../type/line.tsx';

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
          trial={changeover.trialCartons}
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
  trial,
  last = false,
}: {
  readonly name: string;
  readonly ms: number;
  readonly grow: number;
  readonly usual: number | undefined;
  /** Cartons made in it. */
  readonly trial?: number;
  readonly last?: boolean;
}) {
  return (
    <li className={last ? 'made' : ''} style={{ flexGrow: Math.max(1, grow) }}>
      {name}
      <b>
        <Figure of="changeoverPhase">{said.lasted(ms)}</Figure>
      </b>
      <small>
        <Rich
          text={said.usual(usual)}
          of={usual === undefined ? [] : [['usualChangeover', said.lasted(usual)]]}
        />
      </small>
      {trial !== undefined && (
        <small>
          <Rich text={said.trialCartons(trial)} of={[['trial', words.screen.past.count(trial)]]} />
        </small>
      )}
    </li>
  );
}
