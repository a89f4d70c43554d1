import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { useSeen } from '../wall/reads.ts';
import { Pockets } from './pockets.tsx';

/** Good cartons in the last minute; undefined once nobody can vouch for one, which is not zero. */
export function useMinuteRate(): number | undefined {
  const { perMinute } = usePart('rate');
  return useSeen() ? perMinute : undefined;
}

/** The rate as a number and as the minute's pockets beside it; dotted below where not all of it was seen. */
export function MinuteRate({
  x,
  y,
  max,
  none,
  doubt,
  pockets,
}: {
  /** Where the number stands, and how wide it may be. */
  readonly x: number;
  readonly y: number;
  readonly max: number;
  /** Without data: the words' baseline and size. */
  readonly none: { readonly y: number; readonly size: number };
  /** The dotted line's path. */
  readonly doubt: string;
  readonly pockets: Parameters<typeof Pockets>[0]['box'];
}) {
  const rate = usePart('rate');
  const told = useMinuteRate();
  const { line } = words.screen;
  if (told === undefined) {
    return (
      <Line x={x} y={none.y} size={none.size}>
        {line.noData}
      </Line>
    );
  }
  return (
    <>
      <Line x={x} y={y} size={150} max={max} least={40} bold value of={[['rate', line.count(told)]]}>
        {line.count(told)}
      </Line>
      {rate.uncertain && (
        <path d={doubt} stroke="var(--cut)" strokeWidth={4} strokeDasharray="1 8" strokeLinecap="round" />
      )}
      <Pockets pockets={rate.pockets} box={pockets} />
    </>
  );
}
