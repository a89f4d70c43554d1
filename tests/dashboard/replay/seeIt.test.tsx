import { describe, expect, it } from 'vitest';
import { drawn } from '../draw.tsx';
import { drawn as drawnScreen } from '../drawn.tsx';
import { views } from '../views/views.ts';

const { stopped } = views;

/** Addresses of Replay on a page, each once, by the moment they show. */
function shown(page: string): readonly number[] {
  const moments = [...page.matchAll(/href="\/replay\?[^"]*of=(\d+)[^"]*"/g)].map(([, of]) => Number(of));
  return [...new Set(moments)].sort((a, b) => a - b);
}

const spans = stopped.trend.spans.map(({ from }) => from);
const presses = stopped.trend.presses.filter(({ known }) => known === 'edge').map(({ pressed }) => pressed);

describe('a moment as the way to see it happen', () => {
  it('[RP20] is each stop and press of the shift at a desk, also in the table for the keyboard', () => {
    const page = drawn('desk', stopped);
    const [strip, table] = page.split('This shift as a table');
    expect(shown(table!)).toEqual(expect.arrayContaining([...spans, ...presses]));
    expect(shown(strip!).filter((at) => spans.some((from) => from === at)).length).toBeGreaterThan(0);
    expect(strip).toMatch(/class="stripsees" aria-hidden="true"><a [^>]*tabindex="-1"/);
  });

  it('[RP20] chooses the station, says what it does, and is of this line', () => {
    const page = drawn('desk', stopped);
    expect(page).toMatch(
      /href="\/replay\?line=line-3&amp;[^"]*station=bottom-major" title="See it happen: Replay opens a minute before">07:31<span class="unseen">, see it happen/,
    );
  });

  it('[RP20] is each row of the list of stops on a phone', () => {
    expect(shown(drawn('phone', stopped))).toEqual(
      expect.arrayContaining(
        stopped.trend.spans
          .filter(({ kind }) => ['stopped', 'starved', 'blocked', 'safety'].includes(kind))
          .map(({ from }) => from),
      ),
    );
  });

  it('[RP20] is nowhere on the wall and at a panel', () => {
    expect(drawn('wall', stopped)).not.toContain('/replay?');
    expect(drawnScreen({ kind: 'panel', position: 'front' }, stopped)).not.toContain('/replay?');
  });
});
