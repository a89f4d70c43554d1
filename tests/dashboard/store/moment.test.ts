import { describe, expect, it } from 'vitest';
import { momentOf, since } from '../../../dashboard/store/moment.ts';
import { ms, t } from '../views/build.ts';
import { stopped } from '../views/stopped.ts';

const at = t('10:42:14');
const live = stopped.sight;

describe('the moment a screen counts with', () => {
  it('goes on while messages come', () => {
    const moment = momentOf(at, live, 900);
    expect(moment).toMatchObject({ sight: 'live', cause: 'none', age: 1900 });
    expect(since(moment, t('10:40:00'))).toBe(134_900);
  });

  it('stands at the last reading when the PLC is silent, and says who is', () => {
    const moment = momentOf(at, { ...live, kind: 'stale', age: ms(0, 5), lastAt: t('10:42:09') }, 400);
    expect(moment).toMatchObject({ sight: 'stale', cause: 'plc', now: t('10:42:09'), age: 5400 });
    expect(since(moment, t('10:40:00'))).toBe(129_000);
  });

  it('is stale after 3 s without a message and no data after 60 s, whatever the last view said of itself', () => {
    expect(momentOf(at, live, 2_999).sight).toBe('live');
    expect(momentOf(at, live, 3_000)).toMatchObject({ sight: 'stale', cause: 'gateway' });
    expect(momentOf(at, live, 59_999).sight).toBe('stale');
    expect(momentOf(at, live, 60_000)).toMatchObject({ sight: 'lost', cause: 'gateway', now: live.lastAt });
  });

  it('lets the time of day go on when nothing is seen', () => {
    expect(momentOf(at, live, 120_000).clock).toBe(at + 120_000);
  });

  it('never makes a lost line better because messages come', () => {
    const lost = { ...live, kind: 'lost' as const };
    expect(momentOf(at, lost, 0).sight).toBe('lost');
    expect(momentOf(at, lost, 4_000)).toMatchObject({ sight: 'lost', cause: 'gateway' });
  });

  it('is never negative', () => {
    expect(since(momentOf(at, live, 0), t('10:43:00'))).toBe(0);
  });
});
