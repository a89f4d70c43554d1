import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { setLines, sizeThatFits } from '../type/measure.ts';
import { ClearOfHatch } from './blank.tsx';
import { TONES } from './said.ts';
import type { Said } from './state.ts';
import { useWhoComes } from './who.ts';

const WIDTH = 672;

/** The first panel: what it does, for how long, why, how often; and who is coming. */
export function Sentence({ said }: { readonly said: Said }) {
  const line = usePart('line');
  const who = useWhoComes();
  const two = setLines(said.lines, { width: WIDTH, most: 2, sizes: [44, 40, 36] });
  const set = two.whole ? two : setLines(said.lines, { width: WIDTH, most: 3, sizes: [38, 36, 34, 30, 28] });
  const pitch = set.lines.length > 2 ? 40 : 52;
  const tone = TONES[said.look];
  return (
    <>
      <ClearOfHatch look={said.look} x={100} y={60} width={690} height={180} />
      <Line x={116} y={35} size={28} max={line.size === undefined ? 640 : 420}>
        {words.screen.line.lineAndProduct(line.name, line.product)}
      </Line>
      <Line x={776} y={35} size={28} max={230} anchor="end" bold>
        {line.size ?? words.screen.line.sizeNotKnown}
      </Line>
      <Line
        x={114}
        y={set.lines.length > 2 ? 112 : 118}
        size={sizeThatFits(said.title, WIDTH, 70, 44, true)}
        max={WIDTH}
        least={44}
        bold
        tone={tone}
        of={said.of}
      >
        {said.title}
      </Line>
      {set.lines.map((text, i) => (
        <Line
          key={text}
          x={114}
          y={(set.lines.length > 2 ? 156 : 176) + i * pitch}
          size={set.size}
          tone={tone}
          of={said.of}
        >
          {text}
        </Line>
      ))}
      <Line x={114} y={285} size={25} max={672}>
        {who}
      </Line>
    </>
  );
}
