import { setTimeout } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import { LineError } from '../../model/trouble/trouble.ts';
import { onDisk } from './diskTrouble.ts';
import type { SegmentPlace, SegmentTable } from './segmentTable.ts';
import { opened, unseal } from './segments.ts';

/** Segments looked at with one durable commit, some twenty milliseconds. */
const AT_ONCE = 8;
/** It rests this many times as long as it worked: the rest is the line's. */
const REST = 4;
/** Where the disk refuses, it is tried again after so long. Milliseconds. */
const AGAIN_MS = 60_000;

/** Works out when the segments are that an older version wrote without saying so, the newest first, beside all else. */
export class SegmentTimes {
  private readonly database: Database;
  private readonly segments: SegmentTable;
  private readonly found: (place: SegmentPlace) => void;
  private readonly some: () => boolean;

  /** `found`: told of each that cannot be opened. */
  constructor(database: Database, segments: SegmentTable, found: (place: SegmentPlace) => void) {
    this.database = database;
    this.segments = segments;
    this.found = found;
    this.some = database.transaction(() => {
      for (let done = 0; done < AT_ONCE; done += 1) if (!this.next()) return false;
      return true;
    });
  }

  /** Until all are done, or it is stopped. What the disk refuses is tried again later: nothing waits for it. */
  async work(stopping: AbortSignal): Promise<void> {
    while (!stopping.aborted) {
      const began = performance.now();
      let rest = AGAIN_MS;
      try {
        if (!onDisk(this.database.name, this.some)) return;
        rest = (performance.now() - began) * REST;
      } catch (error) {
        if (!(error instanceof LineError)) throw error;
      }
      await paused(rest, stopping);
    }
  }

  private next(): boolean {
    const place: SegmentPlace | undefined = this.segments.untimed();
    if (!place) return false;
    const row = this.segments.at(place.line, place.start);
    const changes = row?.start === place.start ? opened(row.body, unseal) : undefined;
    this.segments.time(place, changes);
    if (!changes) this.found(place);
    return true;
  }
}

async function paused(ms: number, stopping: AbortSignal): Promise<void> {
  await setTimeout(ms, undefined, { signal: stopping, ref: false }).catch((error: unknown) => {
    if (!stopping.aborted) throw error;
  });
}
