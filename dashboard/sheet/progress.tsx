import type { SheetStep } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';

const ROOM = 362;

/** One pocket a step: filled where it is done, folded up where somebody is, dashed where it is open. */
export function Progress({
  steps,
  current,
}: {
  readonly steps: readonly SheetStep[];
  readonly current: string | undefined;
}) {
  const pitch = ROOM / Math.max(1, steps.length);
  const width = Math.min(16, pitch * 0.84);
  const done = steps.filter(({ isDone }) => isDone).length;
  return (
    <svg
      viewBox={`0 0 ${ROOM} 20`}
      preserveAspectRatio="xMinYMid"
      className="sheetprogress"
      role="img"
      aria-label={words.screen.sheet.progress(done, steps.length)}
    >
      {steps.map(({ id, isDone }, i) => {
        const x = i * pitch;
        if (id === current)
          return (
            <path
              key={id}
              className={isDone ? 'here full' : 'here'}
              d={`M${x} 0h${width}v14l-${width / 4} 5h-${width / 2}l-${width / 4} -5z`}
            />
          );
        return <rect key={id} className={isDone ? 'full' : 'open'} x={x} y={4.5} width={width} height={11} />;
      })}
    </svg>
  );
}
