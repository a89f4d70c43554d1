import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { words } from '../app/words.ts';
import { useOwnNumber } from '../people/session.ts';
import { useMoment, usePart, useSounds } from '../store/use.tsx';
import { keepHeard, readHeard } from './heardKept.ts';
import { type Heard, soundingOf } from './sounding.ts';
import { allowSound, maySound, playTones, whenSilenced } from './tones.ts';

const said = words.screen.noticeSound;
const KEPT = 'noticeSound';

/** off; on; or on as it was before, and not yet touched: then it cannot sound. */
type SoundState = 'off' | 'on' | 'touch';

let state: SoundState = localStorageSays() ? 'touch' : 'off';
const listeners = new Set<() => void>();

function localStorageSays(): boolean {
  return typeof localStorage !== 'undefined' && localStorage.getItem(KEPT) === 'on';
}

function become(next: SoundState): void {
  state = next;
  for (const told of [...listeners]) told();
}

// it must not be said to sound when it cannot
whenSilenced(() => state === 'on' && become('touch'));

function useSoundState(): SoundState {
  return useSyncExternalStore(
    (told) => {
      listeners.add(told);
      return () => void listeners.delete(told);
    },
    () => state,
    () => state,
  );
}

/** Whoever loads a page again hears once more what nobody has taken; on the way from screen to screen it stays heard. */
function wasLoadedAgain(): boolean {
  const [how] = performance.getEntriesByType('navigation');
  return (how as PerformanceNavigationTiming | undefined)?.type === 'reload';
}

/** Sounds for notices while this page is open, and says when it cannot; the gateway knows which. Stands once in a page. */
export function NoticeSound() {
  const sound = useSoundState();
  const sounds = useSounds();
  const { open } = usePart('notices');
  const { clock } = useMoment();
  const person = useOwnNumber();
  const heard = useRef<Heard>(undefined);
  const on = sound === 'on';
  useEffect(() => {
    sounds(on);
    return () => sounds(false);
  }, [on, sounds]);
  // where sound was on before, the first touch anywhere is enough, and none where the browser knows of one on the screen
  // before; the switch has a touch of its own
  useEffect(() => {
    if (sound !== 'touch') return undefined;
    const attempt = () => void allowSound().then((may) => may && state === 'touch' && become('on'));
    const touched = ({ target }: Event) => {
      if (target instanceof Element && target.closest('[data-sound]')) return;
      attempt();
    };
    attempt();
    addEventListener('pointerdown', touched);
    addEventListener('keydown', touched);
    return () => {
      removeEventListener('pointerdown', touched);
      removeEventListener('keydown', touched);
    };
  }, [sound]);
  useEffect(() => {
    if (!on || !maySound()) return;
    heard.current ??= wasLoadedAgain() ? new Map<string, number>() : readHeard(sessionStorage);
    const { tone, heard: next } = soundingOf(open, heard.current, person, clock);
    heard.current = next;
    if (!tone) return;
    keepHeard(sessionStorage, next);
    playTones(tone);
  }, [on, open, person, clock]);
  if (sound !== 'touch') return null;
  return (
    <p className="soundwaits noprint" role="status">
      {said.title.touch}
    </p>
  );
}

/** Turns the sound of this page on and off, says what it takes, and lets it be heard once. */
export function SoundSwitch() {
  const sound = useSoundState();
  const [refused, refuse] = useState(false);
  const turn = async () => {
    // whoever presses it while it waits for a touch wants to hear it
    if (sound === 'on') {
      localStorage.removeItem(KEPT);
      return become('off');
    }
    const may = await allowSound();
    refuse(!may);
    if (!may) return;
    localStorage.setItem(KEPT, 'on');
    become('on');
    playTones('call');
  };
  return (
    <button
      type="button"
      className="theme noprint"
      data-sound={sound}
      aria-pressed={sound !== 'off'}
      title={refused ? said.refused : said.title[sound]}
      onClick={() => void turn()}
    >
      {said.switch[sound]}
    </button>
  );
}
