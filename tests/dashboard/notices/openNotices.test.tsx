import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { OpenNotices } from '../../../dashboard/notices/openNotices.tsx';
import { createStore } from '../../../dashboard/store/store.ts';
import { DoorsProvider } from '../../../dashboard/store/use.tsx';
import type { NoticeView } from '../../../model/view/noticesView.ts';
import { viewWith } from './drawn.tsx';
import { at, noticeView } from './views.ts';

function listed(open: readonly NoticeView[]): string {
  const store = createStore(0, viewWith(open));
  store.tick(0);
  return renderToStaticMarkup(
    <DoorsProvider doors={{ store, enter: () => {} }}>
      <OpenNotices />
    </DoorsProvider>,
  );
}

describe('the short list of open notices', () => {
  it('has a line for each, with where it stands and the way to it', () => {
    const normal = noticeView({ id: 'n 2', state: 'returned', normalAt: at(42) });
    const page = listed([noticeView(), normal]);
    expect(page).toContain('Notices: 2 open');
    expect(page.match(/href="\/notices[^"]*"/g)).toEqual(['href="/notices/n1"', 'href="/notices/n%202"']);
    expect(page).toContain('back to normal since');
    expect(page).not.toContain('<button');
  });

  it('[RP20] has the way to when each began, but not where it is about no moment of the line', () => {
    const page = listed([
      noticeView(),
      noticeView({ id: 'n2', kind: 'disk', facts: { kind: 'disk', freeBytes: 1, leastBytes: 2 } }),
    ]);
    const [one, ...others] = [...page.matchAll(/href="(\/replay[^"]*)"/g)];
    expect(one?.[1]).toContain(`at=${noticeView().since - 60_000}&amp;of=${noticeView().since}`);
    expect(others).toEqual([]);
  });

  it('says so in a sentence where nothing is open', () => {
    expect(listed([])).toContain('Notices: none open');
  });
});
