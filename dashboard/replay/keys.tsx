import { useEffect, useRef } from 'react';
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
  readonly note: () => void;
  readonly link: () => void;
  readonly list: () => void;
}

const JUMPS: Readonly<Record<string, Target>> = {
  s: 'stop',
  e: 'press',
  c: 'changeover',
  n: 'notice',
  m: 'note',
};
/** Where something is typed or chosen, every key is its own; a key of the page has its own for being pressed, a slider for being moved. */
const TYPED = 'input:not([type="range"]), textarea, select, [contenteditable], dialog';
const OWN: readonly (readonly [selector: string, keys: readonly string[]])[] = [
  ['button, summary, a', [' ', 'Enter']],
  [
    'input[type="range"]',
    ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End', 'PageUp', 'PageDown'],
  ],
];

/** Keys of the whole screen, but where what has the focus has a meaning of its own for them. */
export function useKeys(acts: Acts): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.defaultPrevented) return;
      const focus = event.target instanceof Element ? event.target : undefined;
      if (focus && isOwn(focus, event)) return;
      if (act(acts, event)) event.preventDefault();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [acts]);
}

function isOwn(focus: Element, { key, shiftKey, altKey }: KeyboardEvent): boolean {
  if (focus.closest(TYPED)) return true;
  // a slider knows only one step: a minute and a tenth of a second are of the whole screen
  const keys = OWN.filter(([selector]) => focus.closest(selector)).flatMap(([, own]) => own);
  return keys.includes(key) && !(key.startsWith('Arrow') && (shiftKey || altKey));
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
  else if (key === 'b') acts.note();
  else if (key === 'l') acts.link();
  else if (key === '?') acts.list();
  else if (key === 'Home') acts.edge('begin');
  else if (key === 'End') acts.edge('end');
  else return false;
  return true;
}

/** `opened`: how often its key was pressed, which opens it and goes there. */
export function KeyList({ opened }: { readonly opened: number }) {
  const list = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    if (opened === 0 || !list.current) return;
    list.current.open = true;
    list.current.querySelector('summary')?.focus();
  }, [opened]);
  return (
    <details ref={list} className="keylist">
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
