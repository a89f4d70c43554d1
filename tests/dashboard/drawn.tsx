import { renderToStaticMarkup } from 'react-dom/server';
import { App } from '../../dashboard/app/app.tsx';
import type { Route } from '../../dashboard/app/route.ts';
import { createStore } from '../../dashboard/store/store.ts';
import { DoorsProvider } from '../../dashboard/store/use.tsx';
import type { LineView } from '../../model/view/view.ts';

/** A screen as the page has it, so many ms after its last message. */
export function drawn(route: Route, view: LineView | undefined, silent = 0): string {
  const store = createStore(0, view);
  store.tick(silent);
  return renderToStaticMarkup(
    <DoorsProvider doors={{ store, enter: () => {} }}>
      <App route={route} />
    </DoorsProvider>,
  );
}
