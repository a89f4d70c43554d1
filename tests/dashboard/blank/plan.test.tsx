import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { App } from '../../../dashboard/app/app.tsx';
import { createStore } from '../../../dashboard/store/store.ts';
import { DoorsProvider } from '../../../dashboard/store/use.tsx';
import type { LineView } from '../../../model/view/view.ts';
import { type Layout, written } from '../draw.tsx';
import { runningOrder } from '../views/orders.ts';
import { views } from '../views/views.ts';

const { offShift, pressed, quiet } = views;
const layouts: readonly Layout[] = ['wall', 'desk', 'phone'];

/** What a panel says, one piece of text a line. */
function panelSays(view: LineView): string {
  return renderToStaticMarkup(
    <DoorsProvider doors={{ store: createStore(0, view), enter: () => {} }}>
      <App route={{ kind: 'panel', position: 'front' }} />
    </DoorsProvider>,
  )
    .replace(/<\/?(?:tspan|b|small|data)\b[^>]*>/g, '')
    .replace(/<[^>]+>/g, '\n')
    .replaceAll('&#x27;', '’');
}

/** An order of two thirds of its quantity, in a shift that is planned to make more than it. */
const shared: LineView = {
  ...quiet,
  plan: { ...quiet.plan, order: { ...runningOrder(2250), quantity: 12_000, cases: 93 } },
};

it.each(layouts)(
  'the %s names the shift beside the shift’s figures, and the order beside its own',
  (layout) => {
    const words = written(layout, shared);
    expect(words).toMatch(/Early shift to 14:00|good of 18,480 planned, early shift/);
    expect(words).toContain('good of 18,480 planned');
    expect(words).toContain('Order 4471: 2,250 of 12,000');
    expect(words).not.toMatch(/18,480,? order|Order 4471, early/);
  },
);

it('the panel draws an order without a due count that nobody has worked out', () => {
  const words = panelSays(shared);
  expect(words).toContain('Order 4471, mint: 2,250 of 12,000');
  expect(words).toContain('93 cases of 24 are full');
  expect(words).not.toContain('planned so far');
  const none = panelSays({ ...quiet, plan: { ...quiet.plan, order: undefined } });
  expect(none).toContain('6,968 of 18,480 planned, early shift');
  expect(none).toContain('dashed: planned so far');
});

it.each(layouts)('between shifts the %s says that nothing is planned, and no zero for it', (layout) => {
  const words = written(layout, offShift);
  expect(words).toMatch(/nothing planned/);
  expect(words).not.toMatch(/on plan|0 planned|Too early|0 lost|0 cartons lost|cartons lost this shift/);
});

it('between shifts the panel says that nothing is planned', () => {
  const words = panelSays(offShift);
  expect(words).toContain('No order entered, no shift, nothing planned');
  expect(words).not.toMatch(/0 of 0|planned so far|before\n+the shift ends/);
});

it.each(layouts)(
  'with a device latched in the %s tells no needed rate beside a finish that is not known',
  (layout) => {
    expect(written(layout, pressed)).not.toContain('per minute\n\nneeded');
  },
);
