import { describe, expect, it } from 'vitest';
import { HandedPage } from '../../../dashboard/panel/handed.tsx';
import { CrewPage } from '../../../dashboard/panel/crew.tsx';
import { NoteScreen } from '../../../dashboard/panel/note.tsx';
import { NumberPage } from '../../../dashboard/panel/number.tsx';
import { OrderFlow } from '../../../dashboard/panel/order.tsx';
import { Panel } from '../../../dashboard/panel/panel.tsx';
import { CountPage, TakenFlow } from '../../../dashboard/panel/taken.tsx';
import { cut } from '../../../dashboard/type/measure.ts';
import { words } from '../../../dashboard/app/words.ts';
import type { LineView } from '../../../model/view/view.ts';
import { endedOrder } from '../views/orders.ts';
import { views } from '../views/views.ts';
import { here, read } from './drawn.tsx';

const nothing = () => {};
const isolate = 'Isolate, lock out, follow the site’s procedure before hands go near.';
const pages = [
  ['list of orders', <OrderFlow key="list" here={here} close={nothing} />],
  ['crews', <CrewPage key="crew" here={here} order={undefined} back={nothing} done={nothing} />],
  ['number', <NumberPage key="number" here={here} back={nothing} take={nothing} />],
  ['count', <HandedPage key="handed" here={here} order={endedOrder} back={nothing} done={nothing} />],
  ['what was taken out', <TakenFlow key="taken" here={here} close={nothing} />],
  ['cartons taken out', <CountPage key="out" here={here} why="sample" back={nothing} done={nothing} />],
  ['note', <NoteScreen key="note" here={here} stop={undefined} close={nothing} />],
  ['words for a stop', <NoteScreen key="else" here={here} stop="s-1" close={nothing} />],
] as const;

const whichButton: LineView['matters'] = [
  { kind: 'whichButton', press: 'p7', at: undefined, candidates: [{ id: 'a', name: 'main panel' }] },
];
const front = <Panel position="front" />;

describe.each(pages)('a panel’s %s', (_name, page) => {
  it('says what the line does and how old that is, and no caution while it runs', () => {
    const words = read(page, views.quiet);
    expect(words).toContain('Running at rate');
    expect(words).toMatch(/read\s+\d+ s ago/);
    expect(words).not.toContain('solate');
  });

  it('says that it stands, and to isolate before hands go near', () => {
    const words = read(page, views.stopped);
    expect(words).toContain('Stopped 2 min 14 s');
    expect(words).toContain(isolate);
  });

  it('says that nobody sees the line, to look at it itself, and to isolate', () => {
    const words = read(page, views.lost);
    expect(words).toContain('Not seen for 3 min. Look at the line itself');
    expect(words).toMatch(/read\s+3 min ago/);
    expect(words).toContain(isolate);
  });

  it('says who is silent while what it shows was true a moment ago', () => {
    expect(read(page, views.quiet, { silent: 5_000 })).toContain(
      'Running at rate. The gateway does not answer',
    );
  });
});

describe('the age of what a panel shows', () => {
  it.each([undefined, 400, 38_000, 3_599_000, 90_000_000])(
    'is whole in its place, however old: %s',
    (age) => {
      for (const row of words.screen.line.age.readInTwo(age)) expect(cut(row, 168, 22, false)).toBe(row);
    },
  );
});

describe('a panel that asks', () => {
  it('why a line stopped: with the age of that and the caution', () => {
    const words = read(front, views.question);
    expect(words).toContain('Stopped 38 s, loading');
    expect(words).toMatch(/read\s+1 s ago/);
    expect(words).toContain(isolate);
  });

  it('why it stood, once it runs again: says so, without a caution', () => {
    const { question } = views.question;
    const words = read(front, { ...views.quiet, question: { ...question!, until: views.question.at } });
    expect(words).toContain('It stood 38 s, loading');
    expect(words).toContain('Running at rate');
    expect(words).not.toContain('solate');
  });

  it('does not say that it stands once nobody sees it', () => {
    const words = read(front, views.question, { silent: 185_000 });
    expect(words).not.toContain('Stopped');
    expect(words).toContain('It stood');
    expect(words).toContain('Look at the line itself');
    expect(words).toContain(isolate);
  });

  it('which button it was: with what the line does, its age, and the caution while it stands', () => {
    const words = read(front, { ...views.stopped, matters: whichButton });
    expect(words).toContain('Which stop button was it?');
    expect(words).toContain('Stopped 2 min 14 s');
    expect(words).toMatch(/read\s+\d+ s ago/);
    expect(words).toContain(isolate);
  });
});

describe('a panel at rest', () => {
  it('cautions while nobody sees the line, as it does for a jam', () => {
    expect(read(front, views.lost)).toContain('isolate, lock out');
    expect(read(front, views.quiet)).not.toContain('solate');
  });

  it('goes on after a comma without a capital', () => {
    const words = read(front, views.quiet, { silent: 5_000 });
    expect(words).toMatch(/the gateway does not answer/);
    expect(words).not.toMatch(/,\s+The gateway/);
  });
});
