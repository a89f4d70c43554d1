import { describe, expect, it } from 'vitest';
import { AGAIN_MS, type Heard, soundingOf, TELLING_MS } from '../../../dashboard/notices/sounding.ts';
import { keepHeard, readHeard } from '../../../dashboard/notices/heardKept.ts';
import type { NoticeView } from '../../../model/view/noticesView.ts';
import { noticeView, told } from './views.ts';

const none: Heard = new Map();
const tone = (open: readonly NoticeView[], heard = none, person?: string, now = 0) =>
  soundingOf(open, heard, person, now).tone;

describe('what an open page sounds for', () => {
  it('is a call once, and again only when it comes back', () => {
    const { tone: first, heard } = soundingOf([noticeView()], none, undefined, 0);
    expect(first).toBe('call');
    expect(tone([noticeView()], heard, undefined, 10 * AGAIN_MS)).toBeUndefined();
    expect(tone([noticeView({ round: 1 })], heard, undefined, 10 * AGAIN_MS)).toBe('call');
  });

  it('is what is urgent every half minute, until somebody takes it', () => {
    const urgent = noticeView({ level: 'urgent' });
    const { tone: first, heard } = soundingOf([urgent], none, undefined, 0);
    expect(first).toBe('urgent');
    expect(tone([urgent], heard, undefined, AGAIN_MS - 1)).toBeUndefined();
    expect(tone([urgent], heard, undefined, AGAIN_MS)).toBe('urgent');
    expect(tone([{ ...urgent, state: 'taken' }], heard, undefined, AGAIN_MS)).toBeUndefined();
  });

  it('is the gravest of several, once for all of them', () => {
    const open = [noticeView(), noticeView({ id: 'n2', level: 'urgent' })];
    const { tone: both, heard } = soundingOf(open, none, undefined, 0);
    expect(both).toBe('urgent');
    expect(tone(open, heard, undefined, 1)).toBeUndefined();
  });

  it('is nothing that is only to be known, taken, shelved or ended', () => {
    expect(tone([noticeView({ level: 'note' })])).toBeUndefined();
    for (const state of ['taken', 'shelved', 'ended'] as const)
      expect(tone([noticeView({ state })])).toBeUndefined();
  });

  it('is for whoever is logged in what is told to that number, and what is told to nobody', () => {
    expect(tone([noticeView()], none, '12')).toBe('call');
    expect(tone([noticeView({ told: [told('12')] })], none, '12')).toBe('call');
    expect(tone([noticeView({ told: [told('13')] })], none, '12')).toBeUndefined();
    // told in a round before this one
    expect(tone([noticeView({ round: 1, told: [told('13')] })], none, '12')).toBe('call');
  });

  it('waits a moment for whoever is told to be told, where somebody is logged in', () => {
    const fresh = noticeView();
    expect(tone([fresh], none, '12', fresh.at)).toBeUndefined();
    expect(tone([{ ...fresh, told: [told('12')] }], none, '12', fresh.at + 1)).toBe('call');
    expect(tone([fresh], none, '12', fresh.at + TELLING_MS)).toBe('call');
    expect(tone([fresh], none, undefined, fresh.at)).toBe('call');
  });

  it('is remembered for so many notices, and not for ever', () => {
    const open = Array.from({ length: 500 }, (_, n) => noticeView({ id: `n${n}` }));
    expect(soundingOf(open, none, undefined, 0).heard.size).toBe(200);
  });
});

describe('what was heard', () => {
  it('is heard no more on the next page of the same tab', () => {
    const rows = new Map<string, string>();
    const kept = {
      getItem: (key: string) => rows.get(key) ?? null,
      setItem: (key: string, value: string) => void rows.set(key, value),
    };
    expect(tone([noticeView()], readHeard(kept))).toBe('call');
    keepHeard(kept, soundingOf([noticeView()], none, undefined, 0).heard);
    expect(tone([noticeView()], readHeard(kept))).toBeUndefined();
    expect(tone([noticeView({ round: 1 })], readHeard(kept))).toBe('call');
  });

  it('is nothing where the tab keeps something else, or nothing', () => {
    for (const text of ['{', '7', '[["n1 0","x"],3]'])
      expect(readHeard({ getItem: () => text }).size).toBe(0);
    const full = {
      setItem: () => {
        throw new Error('no room');
      },
    };
    expect(() => keepHeard(full, new Map([['n1 0', 1]]))).not.toThrow();
  });
});
