import { words } from '../app/words.ts';
import { useSaid } from '../blank/said.ts';
import { Mark } from '../marks/symbols.tsx';
import { useActsNear } from '../matters/caution.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { useMoment } from '../store/use.tsx';
import { Line, type Tone } from '../type/line.tsx';

export interface StateRow {
  readonly text: string;
  readonly caution: boolean;
  readonly of?: readonly Numbered[];
}

/**
 * What stands on every page of a panel, whatever it asks: the line's state in words, and the short caution while hands may
 * go near it. `told`: the page's title says the state already, so only who is silent is left to say.
 */
export function useStateRows(told = false): readonly StateRow[] {
  const { said } = useSaid();
  const silent = useSilent();
  const near = useActsNear();
  const more = silent ?? (said.look === 'unseen' ? said.lines.at(-1) : undefined);
  const state = [told ? undefined : said.title, more]
    .filter((part) => part !== undefined)
    .map(words.screen.line.capital)
    .join('. ');
  const rows: StateRow[] = state === '' ? [] : [{ text: state, caution: false, of: said.of }];
  return near ? [...rows, { text: words.screen.caution.beside, caution: true }] : rows;
}

/** Who is silent, as a part of a sentence, while what is shown was true a moment ago. */
export function useSilent(): string | undefined {
  const { sight, cause } = useMoment();
  if (sight !== 'stale') return undefined;
  return words.screen.panel.silent[cause === 'none' ? 'plc' : cause];
}

/** The rows in a head, the first one's baseline at `y`. */
export function StateRows({
  rows,
  y,
  tone,
}: {
  readonly rows: readonly StateRow[];
  readonly y: number;
  readonly tone: Tone;
}) {
  return rows.map(({ text, caution, of }, i) => (
    <g key={text}>
      {caution && <Mark id="m-lock" size={28} x={120} y={y + i * 31 - 24} />}
      <Line
        x={caution ? 160 : 120}
        y={y + i * 31}
        size={26}
        max={caution ? 908 : 948}
        least={24}
        tone={tone}
        of={of ?? []}
      >
        {text}
      </Line>
    </g>
  ));
}
