import { describe, expect, it } from 'vitest';
import type { NoticeFacts } from '../../../model/notices/notice.ts';
import type { EpochMs, Millis } from '../../../model/units/units.ts';
import type { NoticeView } from '../../../model/view/noticesView.ts';
import { noticeView } from '../../dashboard/notices/views.ts';
import { wordsIn } from '../../../model/words/words.ts';

const { noticeSaid } = wordsIn('en');
const zone = 'Europe/Berlin';
const at = (text: string) => Date.parse(text) as EpochMs;
const raised = at('2026-03-17T09:40:00Z');
const station = { id: 'bottom-major', number: 5, name: 'bottom major flap', drawing: 'bottom-major' };
const nameOf = (id: string) => (id === station.id ? station.name : id);

const stops: NoticeFacts = {
  kind: 'stops',
  stops: 3,
  cartons: 240,
  from: at('2026-03-17T09:21:50Z'),
  usualCartons: 2400,
  onceInShifts: 19,
  fault: 'tuck jam',
};

const said = (facts: NoticeFacts) => {
  const about = { facts, station, size: 'Sachet 48' };
  return [noticeSaid.title(about), noticeSaid.what(about, { zone, now: raised, nameOf })];
};

describe('what is said of a notice', () => {
  it.each<readonly [NoticeFacts, string, string]>([
    [
      stops,
      'Bottom major flap stops far above its own normal',
      'Three stops in 240 cartons, mostly tuck jam; one in 2,400 cartons is usual with Sachet 48. A false notice as strong as this comes about every 19 shifts.',
    ],
    [
      { ...stops, stops: 1, tries: 4, fault: undefined, onceInShifts: 1 },
      'Bottom major flap jams again and again before it runs',
      'One jam with four tries in all in 240 cartons; one in 2,400 cartons is usual with Sachet 48. A false notice as strong as this comes about every shift.',
    ],
    [
      { kind: 'stopsCounted', stops: 3, minutes: 30, from: raised },
      'Bottom major flap stopped three times in 30 minutes of running',
      'Three stops in 30 minutes of running. This is the plain rule that the settings ask for; it knows nothing of what is usual here.',
    ],
    [
      { kind: 'stopsCounted', stops: 4, cartons: 500, from: raised, fault: 'tuck jam' },
      'Bottom major flap stopped four times within 500 cartons',
      'Four stops within 500 cartons, mostly tuck jam. This is the plain rule that the settings ask for; it knows nothing of what is usual here.',
    ],
    [
      { kind: 'rejects', rule: 'run', rejects: 42, of: 3000, expected: 11.6, onceInShifts: 34 },
      'Bottom major flap rejects above its own normal',
      '42 of 3,000 cartons since the changeover; 11.6 are usual with Sachet 48. A false notice as strong as this comes about every 34 shifts.',
    ],
    [
      { kind: 'rate', perMinute: 31.4, target: 44, minutes: 30, since: raised },
      'Rate below target since the changeover',
      '31.4 cartons a minute in the last 30 minutes in which the line was to produce; the target is 44.',
    ],
    [
      {
        kind: 'changeover',
        lasted: 3_840_000 as Millis,
        allowed: 3_000_000 as Millis,
        by: 'earlier',
        from: 'Sachet 20',
        to: 'Sachet 48',
      },
      'Changeover takes longer than it should',
      'It has lasted 1 h 04 min, from Sachet 20 to Sachet 48. By earlier ones of its kind it should be over after 50 min 00 s.',
    ],
    [
      { kind: 'lost', lost: 1333, planned: 3218, most: 'bottom-major', mostLost: 512 },
      'Many cartons lost this shift',
      '1,333 of 3,218 cartons planned so far are lost, 512 of them at bottom major flap.',
    ],
    [
      { kind: 'press', press: 'p1', device: 'stop circuit', role: 'caused', candidates: ['front', 'back'] },
      'Stop device pressed: stop circuit',
      'The line still produced when it was pressed. It is one of: front, back. Whoever pressed it may need help.',
    ],
    [
      { kind: 'ranOn', finding: 'g1', of: 'guard', name: 'guard door 3' },
      'Guard door 3 read open while the line ran',
      'Only a person can close this: look into it, then close its finding, here or on the Safety stops screen.',
    ],
    [
      { kind: 'test', devices: [{ device: 'panel', name: 'main panel' }], everyDays: 30 },
      'Main panel is due a test',
      'A test of each is due every 30 days. Recorded, it is taken off this list.',
    ],
    [
      {
        kind: 'test',
        devices: ['panel', 'front'].map((device) => ({ device, name: device })),
        everyDays: 1,
      },
      'Two devices are due a test',
      'A test of each is due every 1 day. Recorded, it is taken off this list.',
    ],
    [
      { kind: 'unseen', since: raised },
      'Nobody sees what the line does',
      'Since 10:40 it is not known what the line does or makes. Look at the line itself.',
    ],
    [
      { kind: 'server', server: 'plc', since: raised },
      'The PLC’s server plc is not heard',
      'Not heard since 10:40. Look at the line itself; then check the PLC, its OPC UA server and the network.',
    ],
    [
      { kind: 'disk', freeBytes: 812_345_678, leastBytes: 1_000_000_000 },
      'The disk is getting full',
      '812 MB are free on the disk of the tape; below 1,000 MB it is told. When it is full nothing can be recorded or shown.',
    ],
    [
      { kind: 'clock', server: 'plc', offset: -12_340 as Millis, most: 10_000 as Millis },
      'The clock of the server plc is off',
      'It is 12.3 s behind the gateway’s; more than 10.0 s are told.',
    ],
    [
      { kind: 'many', count: 11, within: 600_000 as Millis },
      'Many notices at once, told as one',
      'More than 10 came within 10 min 00 s. What came after stands here together.',
    ],
  ])('$kind is a title and a sentence with its numbers', (facts, title, what) => {
    expect(said(facts)).toEqual([title, what]);
  });

  it('as text it has the caution before what to look at first, and the link last', () => {
    const view: NoticeView = {
      ...{
        id: 'n1',
        kind: 'stops',
        level: 'call',
        state: 'raised',
        at: raised,
        since: at('2026-03-17T09:21:00Z'),
      },
      ...{ facts: stops, station, size: 'Sachet 48', stop: undefined, joined: [], joinedMore: 0 },
      ...{
        taken: undefined,
        hasAt: undefined,
        ownerShutOff: false,
        owner: undefined,
        normalAt: undefined,
        shelved: undefined,
        round: 0,
      },
      ...{ told: [], coming: [], ended: undefined, story: [] },
      look: [
        {
          kind: 'offBook',
          adjustment: '5.3',
          name: 'main plough, infeed',
          ...{ reads: 36.5, book: 34, unit: 'mm', decimals: 1, moved: at('2026-03-17T09:03:00Z') },
        },
        { kind: 'fault', name: 'tuck jam', times: 2, of: 3 },
        { kind: 'condition', name: 'vacuum', reads: 0.42, low: 0.6, high: 0.9, unit: 'bar' },
      ],
    };
    const { subject, text } = noticeSaid.asText(view, {
      line: 'Line 3',
      zone,
      link: 'https://line3.plant.example/notices/n1',
      replay: 'https://line3.plant.example/replay?line=line3&at=1',
      nameOf,
    });
    expect(subject).toBe('Bottom major flap stops far above its own normal');
    expect(text.split('\n')).toEqual([
      'Bottom major flap stops far above its own normal.',
      'Three stops in 240 cartons, mostly tuck jam; one in 2,400 cartons is usual with Sachet 48. A false notice as strong as this comes about every 19 shifts.',
      'Line 3, bottom major flap, Sachet 48. Since Tue 17 Mar 10:21, told Tue 17 Mar 10:40 (Europe/Berlin).',
      '',
      wordsIn('en').screen.caution.jam,
      '',
      'Look first:',
      '- 5.3, main plough, infeed: reads 36.5 mm, the book says 34.0. It has read so since Tue 17 Mar 10:03. That does not prove that it made the trouble.',
      '- Tuck jam was the first fault of two of three stops.',
      '- Vacuum reads 0.4 bar; 0.6 to 0.9 is normal.',
      '',
      'https://line3.plant.example/notices/n1',
      'See it happen: https://line3.plant.example/replay?line=line3&at=1',
    ]);
  });

  it('[NC7] what is due a test is listed with its last test, also in a mail and as an earlier version recorded it', () => {
    const last = at('2026-02-04T10:00:00Z');
    const facts: NoticeFacts = {
      kind: 'test',
      devices: [
        { device: 'panel', name: 'main panel', last },
        { device: 'door', name: 'guard door 2' },
      ],
      everyDays: 30,
    };
    const rows = ['Main panel: last test recorded on Wed 4 Feb 2026', 'Guard door 2: no test recorded'];
    expect(noticeSaid.listed(facts, zone)).toEqual(rows);
    const link = 'https://line3.plant.example/notices/n1';
    const mail = { line: 'Line 3', zone, link, replay: 'https://line3.plant.example/replay?at=1', nameOf };
    const { text } = noticeSaid.asText(noticeView({ facts, kind: 'test' }), mail);
    for (const row of rows) expect(text).toContain(`\n- ${row}\n`);
    // a test that is due is of no moment: there is nothing to see happen
    expect(text.endsWith(`\n${link}`)).toBe(true);
    const before: NoticeFacts = { kind: 'test', device: 'panel', name: 'main panel', last, everyDays: 30 };
    expect(noticeSaid.listed(before, zone)).toEqual(rows.slice(0, 1));
    expect(noticeSaid.title({ facts: before, station: undefined, size: undefined })).toBe(
      'Main panel is due a test',
    );
  });

  it('a moment of another day is told with its day, on a screen as in a mail', () => {
    const facts = { kind: 'server', server: 'plc', since: raised } as const;
    const what = (now: number | undefined) =>
      noticeSaid.what({ facts, station: undefined, size: undefined }, { zone, now, nameOf });
    expect(what(at('2026-03-17T20:00:00Z'))).toContain('Not heard since 10:40.');
    // eleven hours on, and past midnight
    expect(what(at('2026-03-17T23:10:00Z'))).toContain('Not heard since Tue 10:40.');
    expect(what(at('2026-04-17T20:00:00Z'))).toContain('Not heard since Tue 17 Mar 10:40.');
    expect(what(undefined)).toContain('Not heard since Tue 17 Mar 10:40.');
  });

  it('a server that is not heard is no reason to go near the machine, and gets no caution', () => {
    expect(noticeSaid.isAtTheMachine('server')).toBe(false);
    expect(noticeSaid.isAtTheMachine('stops')).toBe(true);
  });
});
