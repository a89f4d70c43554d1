import { useLayoutEffect, useRef, useState } from 'react';
import { SoundSwitch } from '../notices/sound.tsx';
import { LogInButton } from '../people/logIn.tsx';
import { usePart } from '../store/use.tsx';
import { PAST_SCREENS, type PastScreen, type Theme } from './route.ts';
import { words } from './words.ts';

/** The screens there are, as panels joined by scores; the current one is folded up into a flap. */
export function Screens({
  current = 'line',
}: {
  readonly current?: 'line' | 'people' | 'notices' | 'sheet' | PastScreen;
}) {
  const { open } = usePart('notices').counts;
  const { page } = words.screen;
  const nav = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    // where they do not all find room, the current one does
    const folded = nav.current?.querySelector<HTMLElement>('[aria-current]');
    if (nav.current && folded)
      nav.current.scrollLeft = folded.offsetLeft - (nav.current.clientWidth - folded.clientWidth) / 2;
  }, []);
  return (
    <nav ref={nav} className="screens noprint" aria-label={page.screens}>
      <a href="/" {...(current === 'line' ? { 'aria-current': 'page' } : {})}>
        {page.line}
      </a>
      {PAST_SCREENS.map((screen) => (
        <a key={screen} href={`/${screen}`} {...(current === screen ? { 'aria-current': 'page' } : {})}>
          {words.screen.past.screens[screen]}
        </a>
      ))}
      <a href="/sheet" {...(current === 'sheet' ? { 'aria-current': 'page' } : {})}>
        {words.screen.sheet.nav}
      </a>
      <a href="/notices" {...(current === 'notices' ? { 'aria-current': 'page' } : {})}>
        {page.notices(open)}
      </a>
    </nav>
  );
}

/** The line-side panels: what is entered there is by their position. */
export function PanelLinks() {
  const loading = usePart('loading');
  const { page } = words.screen;
  return (
    <nav className="panellinks noprint" aria-label={page.panels}>
      <span aria-hidden="true">{page.panels}</span>
      {loading.map(({ id, name }) => (
        <a key={id} href={`/panel/${encodeURIComponent(id)}`}>
          {name}
        </a>
      ))}
    </nav>
  );
}

/** Whether it sounds, who is logged in, and light or dark. */
export function ThemeSwitch() {
  return (
    <span className="switches noprint">
      <SoundSwitch />
      <LogInButton />
      <LightOrDark />
    </span>
  );
}

/** Light or dark, kept on this screen. */
export function LightOrDark() {
  const [theme, set] = useState<Theme>(() =>
    document.documentElement.dataset.theme === 'dark' ? 'dark' : 'light',
  );
  const { page } = words.screen;
  const other = theme === 'dark' ? 'light' : 'dark';
  return (
    <button
      type="button"
      className="theme noprint"
      onClick={() => {
        document.documentElement.dataset.theme = other;
        localStorage.setItem('theme', other);
        set(other);
      }}
    >
      {other === 'dark' ? page.dark : page.light}
    </button>
  );
}
