import { describe, expect, it } from 'vitest';
import { answersOf, DONE, FOUND } from '../../../model/notices/answers.ts';
import { NOTICE_KINDS } from '../../../model/notices/notice.ts';

describe('answers to what was found and done', () => {
  it.each(NOTICE_KINDS)(
    '[NS2] of %s fit what it is about, are few enough for a panel, and leave a way out',
    (kind) => {
      const { found, done } = answersOf(kind);
      expect([found.slice(-2), done.slice(-2)]).toEqual([
        ['nothing', 'other'],
        ['noneNeeded', 'other'],
      ]);
      for (const answers of [found, done]) {
        expect(new Set(answers).size).toBe(answers.length);
        expect(answers.length).toBeLessThanOrEqual(8);
      }
    },
  );

  it('[NS2] differ by what it is about: nobody looks for an adjustment in a full disk', () => {
    expect(answersOf('stops').found).toContain('adjustment');
    for (const kind of ['disk', 'clock', 'server', 'unseen', 'test', 'changeover'] as const)
      expect(answersOf(kind).found).not.toContain('adjustment');
    expect(answersOf('disk').found).toContain('otherFiles');
    expect(answersOf('server').done).toContain('startedAnew');
    expect(answersOf('test').done).toContain('planned');
    expect(answersOf('changeover').found).toContain('partsMissing');
  });

  it('[NS2] are all offered by some kind of notice', () => {
    const of = (which: 'found' | 'done') => new Set(NOTICE_KINDS.flatMap((kind) => answersOf(kind)[which]));
    expect([...of('found')].toSorted()).toEqual(FOUND.toSorted());
    expect([...of('done')].toSorted()).toEqual(DONE.toSorted());
  });
});
