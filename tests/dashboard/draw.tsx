import { renderToStaticMarkup } from 'react-dom/server';
import { App } from '../../dashboard/app/app.tsx';
import type { Route } from '../../dashboard/app/route.ts';
import { createStore } from '../../dashboard/store/store.ts';
import { DoorsProvider } from '../../dashboard/store/use.tsx';
import type { LineView } from '../../model/view/view.ts';

// The theme switch asks the page which look it has; there is no page here.
Object.assign(globalThis, { document: { documentElement: { dataset: {} } } });

export type Layout = Extract<Route, { kind: 'line' }>['layout'];

/** A layout of the Line screen as the page has it, `silent` ms after its last message. */
export function drawn(layout: Layout, view: LineView, silent = 0): string {
  const store = createStore(0, view);
  store.tick(silent);
  return renderToStaticMarkup(
    <DoorsProvider doors={{ store, enter: () => {} }}>
      <App route={{ kind: 'line', layout }} />
    </DoorsProvider>,
  );
}

/** What is written on it, one piece of text a line, without what only stands in attributes and titles. */
export function written(layout: Layout, view: LineView, silent = 0): string {
  return drawn(layout, view, silent)
    .replace(/<title>[\s\S]*?<\/title>/g, '')
    .replace(/<\/?(?:tspan|b|small|data)\b[^>]*>/g, '')
    .replace(/<[^>]+>/g, '\n')
    .replaceAll('&#x27;', '’');
}
