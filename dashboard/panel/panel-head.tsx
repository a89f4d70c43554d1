import type { ReactNode } from 'react';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { BlankSheet, ClearOfHatch } from '../blank/blank.tsx';
import { ageNumbers } from '../blank/rate-panel.tsx';
import type { Blank } from '../blank/outline.ts';
import { TONES, useSaid } from '../blank/said.ts';
import type { Said } from '../blank/state.ts';
import { Drawn } from '../figures/figure.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { StateRows, useStateRows } from './state-rows.tsx';

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
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset
    <svg
      width={1280}
      height={bottom + 4}
      viewBox={`0 0 1280 ${bottom + 4}`}
      role="group"
      aria-label={said}
      className={moment.sight === 'live' ? 'panelhead' : 'panelhead stale'}
    >
      <Drawn value={true}>
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
      </Drawn>
    </svg>
  );
}

/** A low head for pages that a person opened: what it is about, how far along, and what the line does meanwhile. */
export function FlowHead({
  here,
  title,
  of = [],
  right,
}: {
  readonly here: PositionView;
  readonly title: string;
  /** Which numbers of the title are figures. */
  readonly of?: readonly Numbered[];
  readonly right: string;
}) {
  const { said } = useSaid();
  const rows = useStateRows();
  const tone = TONES[said.look];
  const y = rows.length > 1 ? 102 : 118;
  return (
    <PanelHead
      edges={[1080]}
      bottom={172}
      look={said.look}
      mark={said.mark}
      position={here.name}
      said={[title, ...rows.map(({ text }) => text)].join(', ')}
    >
      <ClearOfHatch look={said.look} x={108} y={72} width={966} height={96} />
      <PanelClock x={1168} />
      <Line x={120} y={y} size={36} max={948} least={26} bold tone={tone} of={of}>
        {title}
      </Line>
      <StateRows rows={rows} y={y + 32} tone={tone} />
      <Line x={1168} y={102} size={30} max={168} least={26} anchor="middle" tone="ink2">
        {right}
      </Line>
      <PanelAge x={1168} y={right === '' ? 116 : 136} />
    </PanelHead>
  );
}

/** How old the reading is, in the last panel: two lines, as one would be cut. */
export function PanelAge({ x, y }: { readonly x: number; readonly y: number }) {
  const { age } = useMoment();
  return words.screen.line.age.readInTwo(age).map((text, line) => (
    <Line
      key={text}
      x={x}
      y={y + line * 28}
      size={26}
      max={168}
      least={22}
      anchor="middle"
      tone="ink2"
      of={ageNumbers(age)}
    >
      {text}
    </Line>
  ));
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
