import type { Millis } from '../../../model/units/units.ts';
import type { LineView } from '../../../model/view/view.ts';
import { wordsIn } from '../../../model/words/words.ts';
import { describe, expect, it } from 'vitest';
import { whatOf } from '../../../dashboard/strip/table.tsx';
import { written } from '../draw.tsx';
import { span } from '../views/build.ts';
import { views } from '../views/views.ts';

const { lost, stopped } = views;

describe('the shift as a table', () => {
  it('says nothing twice in one row', () => {
    for (const [kind, reason, said] of [
      ['changeover', 'changeover', 'changeover'],
      ['changeover', 'setting', 'changeover, setting'],
      ['safety', 'stop device pressed', 'stop device pressed'],
      ['safety', undefined, 'safety stop'],
      ['starved', 'no sachets', 'starved, no sachets'],
      ['stopped', 'tuck jam', 'tuck jam'],
      ['pause', 'break', 'break'],
    ] as const)
      expect(whatOf(span(kind, '07:00:00', '07:01:00', 5, reason))).toBe(said);
    expect(whatOf(span('stopped', '07:00:00', '07:01:00', 5, undefined, true))).toBe(
      'stopped, no reason given',
    );
  });

  it('has its presses where they belong in time', () => {
    const words = written('desk', stopped);
    const table = words.slice(words.indexOf('This shift as a table'));
    const times = [...table.matchAll(/^(\d\d:\d\d)$/gm)].map(([, time = '']) => time);
    const rows = times.slice(0, stopped.trend.spans.length + stopped.trend.presses.length);
    expect(rows).toEqual([...rows].sort());
    expect(rows).toContain('10:32');
  });
});

describe('notices', () => {
  it('say where a stop was, or that this is not known', () => {
    const asked = { ...stopped.matters[1]!, station: undefined } as (typeof stopped.matters)[number];
    expect(written('wall', { ...stopped, matters: [asked] })).toContain('station not known, 1 min 30 s');
  });

  it('say by how much a clock is off, and to which side', () => {
    expect(written('wall', lost)).toContain('The clock of plc is 4 s behind');
  });

  it('[NR4] say what is wrong in the file of ways, at which line, and how to mend it', () => {
    const wrong = {
      kind: 'waysWrong',
      line: 7,
      what: 'The way pager is left out.',
      mend: 'Correct it.',
      more: 1,
    } as const;
    const text = written('wall', { ...stopped, matters: [wrong] });
    expect(text).toContain('The way pager is left out. Line 7 of ways.yaml');
    expect(text).toContain('Correct it. There is one more.');
  });

  it('[CH5] say that a changeover’s cartons are still trial cartons, and since when; so does the head', () => {
    const since = stopped.at;
    const still = { kind: 'stillTrial', since, lasted: 4_500_000 as Millis } as const;
    const head: LineView['head'] = {
      kind: 'changeover',
      phase: 'trial',
      since,
      trialSince: since,
      from: 'Sachet 20',
      to: 'Sachet 48',
    };
    const clock = wordsIn('en').screen.line.clock(since, stopped.line.zone);
    for (const home of ['wall', 'desk'] as const) {
      const text = written(home, { ...stopped, head, matters: [still] });
      expect(text).toContain(`trial since ${clock}, none counted`);
      expect(text).toContain(`Still trial cartons since ${clock}`);
      expect(text).toContain('the changeover lasts 1 h 15 min, and comes to no rate while it is on');
    }
  });

  it('say that somebody set a clock, and which way', () => {
    const matters = [3_600_000, -3_600_000].map(
      (by) => ({ kind: 'clockSet', server: 'plc', by: by as Millis }) as const,
    );
    const text = written('wall', { ...stopped, matters });
    expect(text).toContain('The clock of plc was put forward by 1 h');
    expect(text).toContain('The clock of plc was put back by 1 h');
  });
});
