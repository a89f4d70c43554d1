import fc from 'fast-check';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { EntriesPast } from '../../../model/past/entriesPast.ts';
import type { PastOverview } from '../../../model/past/overview.ts';
import type { StopsPast } from '../../../model/past/stopsPast.ts';
import type { ReportAnswer } from '../../../model/report/report.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { epochMs, type Instant } from '../../../model/units/units.ts';
import { knowledge } from '../../model/diagnosis/troubles.ts';
import { setLine } from '../../model/setpoints/setLine.ts';
import { at, changes, goods, type Rows, running } from '../../model/smallLine.ts';
import { entry } from '../live/shell.ts';
import { eventfulHour, questions } from './pastFeed.ts';
import { type Answer, asOf, openPastSite, type PastSite } from './pastSite.ts';

const line = setLine;
const idAt = (second: number) => at(second).toString(36);
const hour = changes(line, eventfulHour(idAt));
const asked = questions(idAt(300), epochMs(at(0)));

async function siteForTest(): Promise<PastSite> {
  const site = await openPastSite(line);
  onTestFinished(() => site.close());
  return site;
}

/** What every question was answered with at one position. */
type Page = ReadonlyMap<string, Answer>;

async function pageOf(site: PastSite): Promise<Page> {
  const page = new Map<string, Answer>();
  for (const path of asked) page.set(path, await site.ask(path));
  return page;
}

/** Questions that are not answered as they were, with where the answers part. */
async function otherwise(site: PastSite, pages: readonly Page[]): Promise<readonly string[]> {
  const wrong: string[] = [];
  for (const [path, answer] of pages.flatMap((page) => [...page])) {
    const then = await site.ask(asOf(path, answer));
    const same = then.text === answer.text && then.status === answer.status;
    if (!same || then.position !== answer.position || then.moment !== answer.moment)
      wrong.push(`${asOf(path, answer)}: ${parting(answer.text, then.text)}`);
  }
  return wrong;
}

function parting(was: string, is: string): string {
  let place = 0;
  while (was[place] === is[place] && place < was.length) place += 1;
  const near = (text: string) => text.slice(Math.max(0, place - 60), place + 60);
  return `${near(was)} | ${near(is)}`;
}

/** How much later than it happened each comes, in seconds: most at once, some up to forty minutes. */
const delays = fc.array(
  fc.oneof({ weight: 12, arbitrary: fc.constant(0) }, fc.integer({ min: 1, max: 2400 })),
  { minLength: hour.length, maxLength: hour.length },
);

function arriving(late: readonly number[]): readonly Change[] {
  return hour
    .map((change, place) => ({ ...change, received: (change.at + late[place]! * 1e7) as Instant }))
    .sort((a, b) => a.received - b.received);
}

async function offer(site: PastSite, some: readonly Change[]): Promise<void> {
  site.clock.second = (some.at(-1)!.received - at(0)) / 1e7;
  await site.live.offer(some);
}

async function withSite(act: (site: PastSite) => Promise<void>): Promise<void> {
  const site = await openPastSite(line, { symptoms: knowledge });
  try {
    await act(site);
  } finally {
    await site.close();
  }
}

describe('the past as shown then, of an hour that comes in any order', { timeout: 3_600_000 }, () => {
  it('[AS1] [AS2] is answered at each position as it was there, whatever came later, and by records that were made anew', async () => {
    await fc.assert(
      fc.asyncProperty(delays, fc.integer({ min: 20, max: 120 }), (late, batch) =>
        withSite(async (site) => {
          const arrived = arriving(late);
          const pages: Page[] = [];
          for (let from = 0; from < arrived.length; from += batch) {
            await offer(site, arrived.slice(from, from + batch));
            pages.push(await pageOf(site));
          }
          expect((await otherwise(site, pages)).slice(0, 5)).toEqual([]);
          await site.makeAnew();
          expect((await otherwise(site, pages)).slice(0, 5)).toEqual([]);
        }),
      ),
      { numRuns: 3, endOnFailure: true },
    );
  });

  it('[AS2] by records that were made anew also within a batch, as a line that took one change after another answered', async () => {
    await fc.assert(
      fc.asyncProperty(
        delays,
        fc.uniqueArray(fc.integer({ min: 1, max: hour.length }), { minLength: 14, maxLength: 14 }),
        async (late, positions) => {
          const arrived = arriving(late);
          const pages: Page[] = [];
          await withSite(async (site) => {
            for (const change of arrived) {
              await offer(site, [change]);
              if (positions.includes(site.live.position())) pages.push(await pageOf(site));
            }
          });
          await withSite(async (site) => {
            for (let from = 0; from < arrived.length; from += 150)
              await offer(site, arrived.slice(from, from + 150));
            await site.makeAnew();
            // how far the clock is now says nothing of then
            site.clock.second += 7200;
            expect((await otherwise(site, pages)).slice(0, 5)).toEqual([]);
          });
        },
      ),
      { numRuns: 3, endOnFailure: true },
    );
  });

  it('[AS2] by records that were made anew where something came later than one fold reaches back', async () => {
    await withSite(async (site) => {
      const calm = changes(
        line,
        goods(2700, 12_000, 1000).filter((_row, place) => place % 20 === 0),
      );
      // a jam of the first minutes, and what was said of it, is told three hours later
      const late = hour.filter(({ at: when }) => when >= at(295) && when <= at(350));
      const inTime = [...hour.filter((change) => !late.includes(change)), ...calm];
      const comes = (change: Change, received: Instant) => ({ ...change, received });
      const arrived = [
        ...inTime.map((change) => comes(change, change.at)),
        ...late.map((change) => comes(change, at(12_001))),
        comes({ ...calm.at(-1)!, at: at(12_010), value: 99_999 }, at(12_010)),
      ];
      const pages: Page[] = [];
      for (let from = 0; from < arrived.length; from += 90) {
        await offer(site, arrived.slice(from, from + 90));
        pages.push(await pageOf(site));
      }
      expect(site.notes.filter(({ kind }) => kind === 'refolded').length).toBeGreaterThan(0);
      const stops = JSON.parse(pages.at(-1)!.get('/stops')!.text) as StopsPast;
      expect(stops.list.map((one) => one.at)).toContain(epochMs(at(300)));
      expect((await otherwise(site, pages)).slice(0, 5)).toEqual([]);
      await site.makeAnew();
      expect((await otherwise(site, pages)).slice(0, 5)).toEqual([]);
    });
  });
});

/** Twenty cartons a second apart, and a note that is corrected; a jam; then an outage whose values come later. */
const course: Rows = [...running(), ...goods(1, 20, 1)];

describe('the past as shown then', () => {
  it('[AS1] says what was said first where it is corrected later, and a report as it was before somebody signed it', async () => {
    const site = await siteForTest();
    site.clock.second = 20;
    await site.live.offer(changes(line, course));
    const first = await site.live.enter(entry('n-1', 20, { kind: 'note', words: 'bent' }));
    const again = { kind: 'note', words: 'wet' } as const;
    const correction = entry('n-2', 20, {
      kind: 'correction',
      of: 'n-1',
      was: 'note',
      body: again,
      why: 'looked',
    });
    await site.live.enter({ ...correction, author: { kind: 'person', number: '7' } });
    const of = 'shift 2026-03-17 early';
    const report = await read<ReportAnswer>(site, '/report?kind=shift');
    const page = JSON.stringify(report.now);
    const signed = await site.live.enter(
      entry('s-1', 20, { kind: 'signed', of, person: '7', as: 'seen', page }),
    );
    site.clock.second = 21;
    const then = await read<EntriesPast>(site, `/entries?asOf=${first}&shownAt=${epochMs(at(21))}`);
    expect(then.list.map((one) => [one.id, one.first, one.corrections])).toEqual([
      ['n-1', { kind: 'note', words: 'bent' }, []],
    ]);
    const now = await read<EntriesPast>(site, '/entries');
    expect(now.list.find(({ id }) => id === 'n-1')?.corrections.map(({ body }) => body)).toEqual([again]);
    const unsigned = await read<ReportAnswer>(site, `/report?kind=shift&asOf=${signed - 1}`);
    expect([unsigned.signed, unsigned.now.position]).toEqual([undefined, signed - 1]);
    expect((await read<ReportAnswer>(site, `/report?kind=shift&asOf=${signed}`)).signed?.report).toEqual(
      report.now,
    );
  });

  it('[AS1] shows the gap of an outage before its values came, and the stop that lasted with the clock of then', async () => {
    const site = await siteForTest();
    site.clock.second = 100;
    await site.live.offer(
      changes(line, [...course, [30, 'reason', 51], [30, 'state', 11], [60, 'link', false]]),
    );
    const position = site.live.position();
    site.clock.second = 400;
    await site.live.offer(
      changes(line, [[90, 'state', 6], [90, 'reason', 0], ...goods(91, 120, 21), [121, 'link', 'whole']]),
    );
    const span = `from=${epochMs(at(0))}`;
    const now = await read<StopsPast>(site, `/stops?${span}`);
    expect([now.seen.unknown, now.list[0]?.lasted]).toEqual([0, 60_000]);
    const then = await read<StopsPast>(site, `/stops?${span}&asOf=${position}&shownAt=${epochMs(at(80))}`);
    expect([then.seen.unknown, then.list[0]?.until]).toEqual([20_000, undefined]);
    const answer = await site.ask(`/stops?asOf=${position}`);
    expect([answer.position, answer.moment]).toEqual([position, epochMs(at(60))]);
    expect((await site.ask('/stops')).position).toBe(site.live.position());
  });

  it('[AS3] refuses what the tape does not have with what, why and how to mend it, and does nothing as of then', async () => {
    const site = await siteForTest();
    site.clock.second = 20;
    await site.live.offer(changes(line, course));
    const end = site.live.position();
    for (const query of [
      `asOf=${end + 1}`,
      'asOf=0',
      'asOf=-1',
      'asOf=',
      'asOf=yesterday',
      'asOf=1.5',
      'asOf=1e99',
      'asOf=3&asOf=4',
      `asOf=${end}&shownAt=${epochMs(at(10))}`,
      `asOf=${end}&shownAt=${epochMs(at(90_000))}`,
      `shownAt=${epochMs(at(20))}`,
    ])
      for (const path of ['', '/stops', '/stops.csv', '/signals']) {
        const { status, text } = await site.ask(`${path}?${query}`);
        expect([query, status]).toEqual([query, 400]);
        const { trouble, why, mend } = JSON.parse(text) as Record<string, string>;
        for (const sentence of [trouble, why, mend]) expect(sentence).toMatch(/^[^a-z].{10,}\.$/);
      }
    for (const path of ['/report?kind=shift&', '/cancel?'])
      expect((await site.post(`${path}asOf=${end}`)).status).toBe(400);
    expect((await site.ask(`/stops?asOf=${end}&shownAt=${epochMs(at(20))}`)).status).toBe(200);
  });

  it('[AS4] what is not on the tape is as it is now: how far the records are made, and what the file says', async () => {
    const site = await siteForTest();
    site.clock.second = 20;
    await site.live.offer(changes(line, course));
    const then = await read<PastOverview>(site, '?asOf=5');
    expect(then.past).toEqual({ kind: 'whole' });
    expect(then.sizes.map(({ id }) => id)).toEqual(line.sizes.map(({ id }) => id));
    expect(await read(site, '/signals?asOf=5')).toEqual(await read(site, '/signals'));
  });

  it('[AS1] also of a history that lies before the tape, at positions below 0', async () => {
    const site = await siteForTest();
    const day = 86_400;
    site.clock.second = 20;
    await site.live.offer(changes(line, course));
    const before: Rows = [
      ...running(-day),
      ...goods(1 - day, 20 - day, 1),
      [30 - day, 'reason', 51],
      [30 - day, 'state', 11],
      [95 - day, 'state', 6],
    ];
    await site.bringIn(changes(line, before));
    const open = -before.length + running().length + 22;
    const then = await read<StopsPast>(site, `/stops?asOf=${open}&shownAt=${epochMs(at(40 - day))}`);
    expect(then.list.map(({ at: began, until }) => [began, until])).toEqual([
      [epochMs(at(30 - day)), undefined],
    ]);
    const ended = await read<StopsPast>(site, `/stops?asOf=${open + 1}`);
    expect(ended.list.map(({ until }) => until)).toEqual([epochMs(at(95 - day))]);
    expect((await read<StopsPast>(site, `/stops?asOf=${open - 1}`)).stops).toBe(0);
    expect((await site.ask(`/stops?asOf=${-before.length}`)).status).toBe(400);
  });
});

async function read<Of>(site: PastSite, path: string): Promise<Of> {
  const { status, text } = await site.ask(path);
  expect([path, status]).toEqual([path, 200]);
  return JSON.parse(text) as Of;
}
