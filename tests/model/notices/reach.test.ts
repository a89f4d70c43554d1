import { describe, expect, it } from 'vitest';
import { type Reach, unreached } from '../../../model/notices/reach.ts';

const reach: Reach = { shutOff: ['9'], pages: ['12'], mail: ['9', '13'], push: ['14'], webhooks: ['dect'] };
const of = (person: string, ...ways: string[]) => unreached({ person, ways, when: { quiet: [] } }, reach);

describe('whoever is set to be told', () => {
  it('[NR2] is marked where their access has ended, whatever way leads to them', () => {
    expect(of('9', 'mail', 'dect')).toBe('accessEnded');
  });

  it('[NR2] is marked where no way leads to them', () => {
    expect(of('12', 'mail')).toBe('noWay');
    expect(of('13', 'push', 'pager')).toBe('noWay');
    expect(of('13')).toBe('noWay');
  });

  it('[NR2] is marked where only an open page would tell them, and none of theirs sounds', () => {
    expect(of('13', 'page')).toBe('pageClosed');
    expect(of('13', 'page', 'pager')).toBe('pageClosed');
    expect(of('12', 'page')).toBeUndefined();
  });

  it('[NR2] is not marked where a way leads to them', () => {
    expect(of('13', 'page', 'mail')).toBeUndefined();
    expect(of('14', 'push')).toBeUndefined();
    expect(of('15', 'dect')).toBeUndefined();
  });
});
