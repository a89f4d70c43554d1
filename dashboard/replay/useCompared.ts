import { useEffect, useRef, useState } from 'react';
import type { Alignment } from '../../model/past/compared/aligned.ts';
import type { Compared } from '../../model/past/compared/compared.ts';
import type { Course } from '../../model/past/course.ts';
import { type Asked, useAsked } from '../past/asked.ts';
import { queryOf } from '../past/chosen.ts';
import type { Stretch } from './stretch.ts';

const MINUTE_MS = 60_000;
/** What goes on is asked for again so often, and while the moment moves no more often than this. */
const AGAIN_MS = 30_000;
const APART_MS = 400;

export interface ComparedNow {
  /** The newest answer about these two; undefined before the first. */
  readonly compared: Compared | undefined;
  readonly course: Course | undefined;
  readonly asked: Pick<Asked<unknown>, 'state' | 'trouble'>;
}

/** Two stretches, one over the other, up to the whole minute before a moment; undefined where nothing hangs under it. */
export function useCompared(
  base: string,
  here: Stretch,
  there: Stretch | undefined,
  align: Alignment,
  at: number,
): ComparedNow | undefined {
  const minute = useNowAndThen(Math.floor(at / MINUTE_MS) * MINUTE_MS);
  const two = there && {
    ...{ from: here.from, to: here.to, otherFrom: there.from, otherTo: there.to, align },
  };
  const asked = useAsked<Compared>(
    two && `${base}/compared${queryOf({ ...two, at: Math.max(here.from, minute) })}`,
    AGAIN_MS,
  );
  const course = useAsked<Course>(
    there && `${base}/course${queryOf({ from: there.from, to: there.to })}`,
    AGAIN_MS,
  );
  // while another moment or alignment is asked about, what was said of the one before stays
  const key = two && `${two.from} ${two.to} ${two.otherFrom} ${two.otherTo}`;
  const last = useRef<{ readonly key: string; readonly compared: Compared }>(undefined);
  if (key !== undefined && asked.data) last.current = { key, compared: asked.data };
  if (key === undefined) return undefined;
  const compared = last.current?.key === key ? last.current.compared : undefined;
  return { compared, course: course.data, asked };
}

/** A value that moves, no more often than so many milliseconds apart, and where it rests. */
function useNowAndThen(value: number): number {
  const [told, tell] = useState(value);
  const due = useRef(0);
  useEffect(() => {
    const timer = setTimeout(
      () => {
        due.current = performance.now() + APART_MS;
        tell(value);
      },
      Math.max(0, due.current - performance.now()),
    );
    return () => clearTimeout(timer);
  }, [value]);
  return told;
}
