import { measure } from '../type/measure.ts';
import type { TimeBox } from './scale.ts';

const TYPE = 13;

/** The flag of the moment looked at: it bears the time, and stays within the strip. */
export function Flag({ x, box, name }: { readonly x: number; readonly box: TimeBox; readonly name: string }) {
  const half = measure(name, TYPE, true) / 2 + 8;
  const middle = Math.min(box.right - half, Math.max(box.left + half, x));
  return (
    <>
      <path
        d={`M${middle - half} 18V5L${middle - half + 5} 0H${middle + half - 5}L${middle + half} 5V18Z`}
        className="flag"
      />
      <text
        x={middle}
        y={9}
        dy=".36em"
        fontSize={TYPE}
        fontWeight={700}
        textAnchor="middle"
        className="flagtext"
      >
        {name}
      </text>
    </>
  );
}
