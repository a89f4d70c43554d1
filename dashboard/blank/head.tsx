import { memo, useContext } from 'react';
import { words } from '../app/words.ts';
import { Drawn, Shows } from '../figures/figure.tsx';
import { usePart } from '../store/use.tsx';
import { BlankSheet } from './blank.tsx';
import { ChangeoverPanel } from './changeover-panel.tsx';
import type { Blank } from './outline.ts';
import { PlanPanel } from './plan-panel.tsx';
import { RatePanel } from './rate-panel.tsx';
import { useSaid } from './said.ts';
import { Sentence } from './sentence.tsx';
import { SpokenHead, StateTold } from './spoken.tsx';

const WIDE: Blank = {
  glue: 2,
  edges: [86, 806, 1162, 1566, 1840],
  top: 48,
  bottom: 252,
  slope: 26,
  flapsAbove: ['major', 'minor', 'major', 'minor'],
  flapsBelow: ['major', 'minor', 'major', 'minor'],
  reach: 46,
};

/** The head of wall and desk: sentence, rate, shift and changeover, each with its label above and its consequence below. */
export const Head = memo(function Head() {
  const { said, moment } = useSaid();
  const shows = useContext(Shows);
  return (
    <>
      <StateTold />
      <SpokenHead />
      <svg
        viewBox="0 0 1840 304"
        className={moment.sight === 'live' ? 'head' : 'head stale'}
        aria-hidden={shows ? true : undefined}
        role={shows ? undefined : 'group'}
        aria-label={shows ? undefined : words.screen.past.screens.figures}
      >
        <Drawn value={true}>
          <BlankSheet blank={WIDE} look={said.look} mark={said.mark}>
            <Sentence said={said} />
            <RatePanel />
            <PlanPanel />
            <ChangeoverPanel />
          </BlankSheet>
        </Drawn>
      </svg>
    </>
  );
});

/** A screen's heading, for those who listen: what the first panel says, and nothing that nobody vouches for now. */
export function useHeadline(): string {
  const line = usePart('line');
  const { said } = useSaid();
  return `${line.name}, ${line.size ?? words.screen.line.sizeNotKnown}: ${said.title}`;
}
