import type { TrendView } from '../../model/view/trend.ts';
import type { PressView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { Line } from '../type/line.tsx';
import { measure } from '../type/measure.ts';
import { type StripBox, xOf } from './scale.ts';

const MARK: { readonly [role in PressView['role']]: string } = {
  caused: 'd-button',
  during: 'd-button-open',
  uncertain: 'd-button-dotted',
};

/** Presses of stop devices under the same axis: solid where it caused the stop, open where it was used in one, dotted where that is not certain. */
export function SafetyRail({ trend, box }: { readonly trend: TrendView; readonly box: StripBox }) {
  const now = xOf(trend.now, trend, box);
  const { strip } = words.screen.line;
  const right = box.width - box.right;
  const marks = trend.presses
    .filter((press) => press.known === 'edge' && press.pressed >= trend.from)
    .map((press) => ({ press, x: xOf(press.pressed, trend, box) }));
  return (
    <g>
      {box.type > 13 && box.left > 40 && (
        <Line
          x={box.left - 12}
          y={box.rail + 8}
          size={box.type}
          max={box.left - 12}
          least={12}
          anchor="end"
          tone="ink2"
        >
          {strip.safety}
        </Line>
      )}
      <path d={`M${box.left} ${box.rail}H${now}`} stroke="var(--cut)" strokeWidth={1.6} />
      <path d={`M${now} ${box.rail}H${right}`} className="scoreline" />
      {marks.map(({ press, x }, i) => (
        <g key={press.id} aria-label={strip.press(press)}>
          <g style={{ color: 'var(--ink)' }}>
            <Mark id={MARK[press.role]} size={box.rope} x={x - box.rope / 2} y={box.rail - box.rope * 0.6} />
          </g>
          <RailWords
            text={strip.press(press)}
            of={pressNumbers(press)}
            from={x + box.rope * 0.7}
            to={(marks[i + 1]?.x ?? right + box.rope) - box.rope * 0.6}
            box={box}
          />
        </g>
      ))}
    </g>
  );
}

/** How long it was until restarted, as the words of a press have it. */
export function pressNumbers({ role, pressed, restarted, firstGood }: PressView): readonly Numbered[] {
  const end = restarted ?? firstGood;
  if (role !== 'caused' || end === undefined) return [];
  return [['untilRestart', words.screen.line.duration(end - pressed)]];
}

/** A press's words, where they find room before the next mark. */
function RailWords({
  text,
  of,
  from,
  to,
  box,
}: {
  readonly text: string;
  readonly of: readonly Numbered[];
  readonly from: number;
  readonly to: number;
  readonly box: StripBox;
}) {
  if (measure(text, box.type) > to - from) return null;
  return (
    <>
      <rect
        x={from - 6}
        y={box.rail - 4}
        width={measure(text, box.type) + 12}
        height={8}
        fill="var(--ground)"
      />
      <Line x={from} y={box.rail + box.type * 0.36} size={box.type} tone="ink2" of={of} quiet>
        {text}
      </Line>
    </>
  );
}
