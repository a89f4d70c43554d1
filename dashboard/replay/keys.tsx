import { useEffect } from 'react';
import { words } from '../app/words.ts';
import { TARGETS, type Target } from './targets.ts';

const said = words.screen.past.replay;

/** What keys do; the screen says the same in a list. */
export interface Acts {
  readonly play: () => void;
  readonly by: (ms: number) => void;
  readonly step: (by: 'change' | 'carton', way: 1 | -1) => void;
  readonly jump: (to: Target, way: 1 | -1) => void;
  readonly speed: (place: number) => void;
  readonly widen: (way: 1 | -1) => void;
  readonly other: () => void;
  readonly edge: (which: 'begin' | 'end') => void;
}

const JUMPS: Readonly<Record<string, Target>> = {
  s: 'stop',
  e: 'press',
  c: 'changeover',
  n: 'notice',
  m: 'note',
};
const OWN = 'input, textarea, select, summary, a, [contenteditable]';

/** Keys of the whole screen, but where a field or a key of the page has the focus and the same key means something there. */
export function useKeys(acts: Acts): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey) return;
      const focus = event.target instanceof Element ? event.target : undefined;
      if (focus?.closest(OWN)) return;
      if (event.key === ' ' && focus?.closest('button')) return;
      if (act(acts, event)) event.preventDefault();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [acts]);
}

function act(acts: Acts, { key, shiftKey, altKey }: KeyboardEvent): boolean {
  const jump = JUMPS[key.toLowerCase()];
  const fine = altKey ? 100 : shiftKey ? 60_000 : 1_000;
  if (jump !== undefined && TARGETS.includes(jump)) acts.jump(jump, shiftKey ? -1 : 1);
  else if (key === ' ') acts.play();
  else if (key === 'ArrowLeft') acts.by(-fine);
  else if (key === 'ArrowRight') acts.by(fine);
  else if (key === ',') acts.step('carton', -1);
  else if (key === '.') acts.step('carton', 1);
  else if (key === '[') acts.step('change', -1);
  else if (key === ']') acts.step('change', 1);
  else if (/^[1-4]$/.test(key)) acts.speed(Number(key) - 1);
  else if (key === '+' || key === '=') acts.widen(-1);
  else if (key === '-' || key === '−') acts.widen(1);
  else if (key === 'k') acts.other();
  else if (key === 'Home') acts.edge('begin');
  else if (key === 'End') acts.edge('end');
  else return false;
  return true;
}

export function KeyList() {
  return (
    <details className="keylist">
      <summary>{said.keys.title}</summary>
      <dl>
        {said.keys.rows.map(([key, does]) => (
          <div key={key}>
            <dt>{key}</dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
