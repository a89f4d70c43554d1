import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { LEFT_ALONE_MS, whenLeftAlone } from '../../../dashboard/panel/leftAlone.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('a page that a person opened on a panel', () => {
  it('closes once nobody has touched it for a minute and a half', () => {
    const act = vi.fn();
    whenLeftAlone(new EventTarget(), act);
    vi.advanceTimersByTime(LEFT_ALONE_MS - 1);
    expect(act).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1);
    expect(act).toHaveBeenCalledTimes(1);
  });

  it.each(['pointerdown', 'pointermove', 'keydown', 'input'])(
    'stays while it is used: %s begins the time anew',
    (touch) => {
      const act = vi.fn();
      const page = new EventTarget();
      whenLeftAlone(page, act);
      for (let i = 0; i < 3; i++) {
        vi.advanceTimersByTime(LEFT_ALONE_MS - 1);
        page.dispatchEvent(new Event(touch));
      }
      expect(act).not.toHaveBeenCalled();
      vi.advanceTimersByTime(LEFT_ALONE_MS);
      expect(act).toHaveBeenCalledTimes(1);
    },
  );

  it('is not closed once more after it was closed by hand', () => {
    const act = vi.fn();
    const page = new EventTarget();
    whenLeftAlone(page, act)();
    page.dispatchEvent(new Event('keydown'));
    vi.advanceTimersByTime(2 * LEFT_ALONE_MS);
    expect(act).not.toHaveBeenCalled();
  });
});
