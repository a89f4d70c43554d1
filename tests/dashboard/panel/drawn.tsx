import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import type { NewEntry } from '../../../model/view/protocol.ts';
import type { LineView, PositionView } from '../../../model/view/view.ts';
import { createStore } from '../../../dashboard/store/store.ts';
import { DoorsProvider } from '../../../dashboard/store/use.tsx';
import { views } from '../views/views.ts';

export const here = views.quiet.loading[0] as PositionView;

/** A page of a panel as markup, `silent` ms after its last message, with what was entered on it before. */
export function drawn(
  page: ReactNode,
  view: LineView,
  { silent = 0, sent = [] }: { readonly silent?: number; readonly sent?: readonly NewEntry[] } = {},
): string {
  const store = createStore(0, view);
  for (const entry of sent) store.enter(entry, { trouble: '', mend: '' });
  store.tick(silent);
  return renderToStaticMarkup(<DoorsProvider doors={{ store, enter: () => {} }}>{page}</DoorsProvider>);
}

/** Its words as they would be read. */
export function read(...page: Parameters<typeof drawn>): string {
  return drawn(...page)
    .replace(/<title>[\s\S]*?<\/title>/g, '')
    .replace(/<\/?(?:tspan|b|small|data)\b[^>]*>/g, '')
    .replace(/<[^>]+>/g, '\n')
    .replaceAll('&#x27;', '’');
}
