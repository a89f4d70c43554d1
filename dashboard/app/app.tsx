import { useEffect, useState } from 'react';
import { Symbols } from '../marks/symbols.tsx';
import { useHeld } from '../store/use.tsx';
import { HowMade } from '../figures/made.tsx';
import { Desk } from '../desk/desk.tsx';
import { Panel } from '../panel/panel.tsx';
import { NoticeFlap } from '../notices/flap.tsx';
import { NoticeSound } from '../notices/sound.tsx';
import { Notices } from '../notices/notices.tsx';
import { NoticeSettingsScreen } from '../notices/settings.tsx';
import { Past } from '../past/past.tsx';
import { ClearText, roomHeight } from '../encryption/clearText.tsx';
import { People } from '../people/people.tsx';
import { SheetScreen } from '../sheet/sheet.tsx';
import { Phone } from '../phone/phone.tsx';
import { Wall } from '../wall/wall.tsx';
import { ShownOld } from './shownOld.tsx';
import { WhenBroken } from './broken.tsx';
import { type Route, routeOf } from './route.ts';
import { words } from './words.ts';

/** The screen of this address, once there is a view; until then, in words, what is being waited for. */
export function App({ route }: { readonly route: Route }) {
  const ready = useHeld((held) => held.view !== undefined);
  return (
    <>
      <Symbols />
      <ClearText />
      {ready && isBesideLine(route) && <ShownOld ofLine={isOfLine(route)} />}
      {ready && isForOne(route) && <NoticeSound />}
      {ready && isForOne(route) && route.kind !== 'notices' && <NoticeFlap />}
      <WhenBroken>{ready ? <Screen route={route} /> : <Waiting />}</WhenBroken>
      {ready && route.kind !== 'people' && route.kind !== 'notices' && (
        <HowMade
          screen={route.kind === 'line' ? route.layout : route.kind === 'sheet' ? 'phone' : route.kind}
        />
      )}
    </>
  );
}

/** The Line screen and the panels say in their heads how old they are; every other screen at its top. */
function isBesideLine({ kind }: Route): boolean {
  return kind !== 'line' && kind !== 'panel';
}

/** What the PLC says has no part in notices and people. */
function isOfLine({ kind }: Route): boolean {
  return kind !== 'notices' && kind !== 'people';
}

/** A desk's or a phone's: a wall never asks, and a panel asks in its own way. */
function isForOne(route: Route): boolean {
  return route.kind !== 'panel' && !(route.kind === 'line' && route.layout === 'wall');
}

function Screen({ route }: { readonly route: Route }) {
  useTitle();
  if (route.kind === 'panel') return <Panel position={route.position} />;
  if (route.kind === 'people') return <People />;
  if (route.kind === 'sheet') return <SheetScreen />;
  if (route.kind === 'notices')
    return route.of === 'settings' ? <NoticeSettingsScreen /> : <Notices of={route.of} />;
  if (route.kind === 'past') return <Past screen={route.screen} of={route.of} />;
  switch (route.layout) {
    case 'wall':
      return (
        <div className="wallframe">
          <Wall />
        </div>
      );
    case 'desk':
      return <Desk />;
    case 'phone':
      return <Phone />;
  }
}

/** The page's title, and what the line does as an attribute of the page: for whoever styles, prints or watches it. */
function useTitle() {
  const name = useHeld((held) => held.view?.line.name ?? '');
  const head = useHeld((held) => held.view?.head.kind ?? '');
  useEffect(() => {
    document.title = words.screen.page.title(name);
  }, [name]);
  useEffect(() => {
    document.documentElement.dataset.head = head;
  }, [head]);
}

function Waiting() {
  const link = useHeld((held) => held.link);
  const trouble = useHeld((held) => held.trouble);
  const { page } = words.screen;
  return (
    <main className="waiting">
      <h1>{link === 'down' ? page.down : link === 'refused' ? page.refused(trouble ?? '') : page.joining}</h1>
      <p>{page.downMend}</p>
    </main>
  );
}

/** The route of the page as it is now: the layout changes with the width, and the wall is scaled to it. */
export function useRoute(): Route {
  const [route, setRoute] = useState(() => routeOf(location.pathname, innerWidth));
  useEffect(() => {
    const follow = () => {
      setRoute((before) => {
        const next = routeOf(location.pathname, innerWidth);
        return JSON.stringify(next) === JSON.stringify(before) ? before : next;
      });
      document.documentElement.style.setProperty(
        '--wall',
        String(Math.min(innerWidth / 1920, roomHeight() / 1080)),
      );
    };
    follow();
    addEventListener('resize', follow);
    return () => removeEventListener('resize', follow);
  }, []);
  return route;
}
