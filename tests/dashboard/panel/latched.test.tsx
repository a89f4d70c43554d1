import { describe, expect, it } from 'vitest';
import { Panel } from '../../../dashboard/panel/panel.tsx';
import type { NewEntry } from '../../../model/view/protocol.ts';
import type { HeadPressed, LineView } from '../../../model/view/view.ts';
import { views } from '../views/views.ts';
import { read } from './drawn.tsx';

const front = <Panel position="front" />;
const held = views.pressed.head as HeadPressed;
const nobody: LineView = { ...views.pressed, head: { ...held, going: undefined } };
const going: NewEntry = {
  kind: 'going',
  stop: held.stop!,
  id: 'e-1',
  author: { kind: 'position', position: 'front' },
};

describe('a panel with a stop device latched in', () => {
  it('takes one tap of somebody who goes, and says that it did', () => {
    expect(read(front, nobody)).toContain('I’m going there');
    const words = read(front, nobody, { sent: [going] });
    expect(words).not.toContain('I’m going there');
    expect(words).toContain('You are on your way');
    expect(words).toContain('Your entry is on its way: going');
  });

  it('still asks who goes where somebody went to another stop', () => {
    expect(read(front, nobody, { sent: [{ ...going, stop: 's-1' }] })).toContain('I’m going there');
  });

  it('tells the time since the press apart from how long it was pressed', () => {
    expect(read(front, views.pressed)).toMatch(/\n\s*for\n/);
    const words = read(front, views.released);
    expect(words).toContain('since the press');
    expect(words).not.toMatch(/\n\s*for\n/);
  });
});
