import type { ReactNode } from 'react';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { BlankSheet } from '../blank/blank.tsx';
import type { Blank } from '../blank/outline.ts';
import { markOf, type Said } from '../blank/state.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';

/** The head of a panel: the same blank as the wall's, with the position in its first flap and the clock in its last. */
export function PanelHead({
  edges,
  bottom,
  look,
  mark,
  position,
  said,
  children,
}: {
  /** Inner edges of the panels between the first one's left and the last one's right. */
  readonly edges: readonly number[];
  readonly bottom: number;
  readonly look: Said['look'];
  readonly mark: string;
  readonly position: string;
  /** For those who listen. */
  readonly said: string;
  readonly children: ReactNode;
}) {
  const line = usePart('line');
  const moment = useMoment();
  const first = edges[0] ?? 1080;
  const flaps = edges.length === 2 ? (['major', 'minor', 'major'] as const) : (['major', 'minor'] as const);
  const blank: Blank = {
    glue: 24,
    edges: [94, ...edges, 1256],
    top: 68,
    bottom,
    slope: 26,
    flapsAbove: flaps,
    flapsBelow: flaps.map(() => 'none' as const),
    reach: 44,
  };
  return (
    <svg
      width={1280}
      height={bottom + 4}
      viewBox={`0 0 1280 ${bottom + 4}`}
      role="img"
      aria-label={said}
      className={moment.sight === 'live' ? 'panelhead' : 'panelhead stale'}
    >
      <BlankSheet blank={blank} look={look} mark={mark}>
        <Line
          x={122}
          y={56}
          size={28}
          max={line.size === undefined ? first - 350 : (first - 140) * 0.6}
          least={26}
        >
          {words.screen.panel.lineAndPosition(line.name, position)}
        </Line>
        <Line x={first - 28} y={56} size={28} max={(first - 140) * 0.38} least={26} anchor="end" bold>
          {line.size ?? words.screen.line.sizeNotKnown}
        </Line>
        {children}
      </BlankSheet>
    </svg>
  );
}

/** A low head for pages that a person opened: what it is about, and how far along. */
export function FlowHead({
  here,
  title,
  right,
}: {
  readonly here: PositionView;
  readonly title: string;
  readonly right: string;
}) {
  const head = usePart('head');
  return (
    <PanelHead edges={[1080]} bottom={160} look="rest" mark={markOf(head)} position={here.name} said={title}>
      <PanelClock x={1168} />
      <Line x={120} y={128} size={40} max={940} least={26} bold>
        {title}
      </Line>
      <Line x={1168} y={126} size={30} max={168} least={26} anchor="middle" tone="ink2">
        {right}
      </Line>
    </PanelHead>
  );
}

/** The clock, in the last flap. */
export function PanelClock({ x }: { readonly x: number }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  return (
    <Line x={x} y={57} size={26} anchor="middle" bold>
      {words.screen.line.clock(clock, zone)}
    </Line>
  );
}
