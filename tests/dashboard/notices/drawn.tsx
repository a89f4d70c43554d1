import { renderToStaticMarkup } from 'react-dom/server';
import { expect } from 'vitest';
import { App } from '../../../dashboard/app/app.tsx';
import type { Route } from '../../../dashboard/app/route.ts';
import { createStore } from '../../../dashboard/store/store.ts';
import { DoorsProvider } from '../../../dashboard/store/use.tsx';
import { lineView } from '../../../gateway/api/viewSchema.ts';
import type { NoticeView } from '../../../model/view/noticesView.ts';
import type { LineView } from '../../../model/view/view.ts';
import { views } from '../views/views.ts';
import { notices } from './views.ts';

// The theme switch asks the page which look it has; there is no page here.
Object.assign(globalThis, { document: { documentElement: { dataset: {} } } });

/** A quiet line with these notices, as a gateway may send it. */
export function viewWith(
  open: readonly NoticeView[],
  more: Partial<LineView> = {},
  ended: readonly NoticeView[] = [],
): LineView {
  const view: LineView = { ...views.quiet, ...more, notices: notices(open, ended) };
  expect(lineView.safeParse(JSON.parse(JSON.stringify(view))).error?.issues ?? []).toEqual([]);
  return view;
}

/** A screen as a page has it, a number that can be asked about being a part of its sentence. */
export function drawn(route: Route, view: LineView): string {
  const store = createStore(0, view);
  store.tick(0);
  return renderToStaticMarkup(
    <DoorsProvider doors={{ store, enter: () => {} }}>
      <App route={route} />
    </DoorsProvider>,
  )
    .replace(/<\/?data\b[^>]*>/g, '')
    .replaceAll('&#x27;', '’');
}
