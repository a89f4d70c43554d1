import { createRoot } from 'react-dom/client';
import { App, useRoute } from './app/app.tsx';
import { authorOf, routeOf, themeOf } from './app/route.ts';
import { words } from './app/words.ts';
import './look/tokens.css';
import './look/marks.css';
import './look/wall.css';
import './look/desk.css';
import './look/phone.css';
import './look/past.css';
import './look/changeovers.css';
import './look/setpoints.css';
import './look/sheet.css';
import './look/signals.css';
import './look/export.css';
import './look/stations.css';
import './look/stops.css';
import './look/maintenance.css';
import './look/entries.css';
import './look/safety.css';
import './look/balance.css';
import './look/attributed.css';
import './look/figures.css';
import './look/replay.css';
import './look/replay-compared.css';
import './look/see-it.css';
import './look/report.css';
import './look/panel.css';
import './look/people.css';
import './look/notices.css';
import './look/notice-settings.css';
import './look/notice-sound.css';
import './look/clear-text.css';
import { keepAhead } from './store/ahead.ts';
import { dropTakenDrafts } from './store/drafts.ts';
import { linkTo } from './store/link.ts';
import { keepOwnSheet } from './store/ownSheet.ts';
import { createStore } from './store/store.ts';
import { DoorsProvider } from './store/use.tsx';
import { keepWaiting } from './store/waiting.ts';

const dark = matchMedia('(prefers-color-scheme: dark)').matches;
document.documentElement.dataset.theme = themeOf(location.search, localStorage.getItem('theme'), dark);

const asked = new URLSearchParams(location.search).get('line') ?? undefined;
const author = authorOf(routeOf(location.pathname, innerWidth), innerWidth);
const store = createStore(performance.now());
// before what waits: a sheet that was begun here has the numbers that were kept then
keepAhead(store, localStorage);
keepWaiting(store, localStorage, author, { now: () => Date.now(), ...words.screen.entry });
// what waits was entered in sheets as well, and perhaps not in the last one
keepOwnSheet(store, localStorage, author);
dropTakenDrafts(store, localStorage);
const doors = linkTo(store, asked, author);

function Page() {
  return <App route={useRoute()} />;
}

const root = document.getElementById('root');
if (root === null) throw new Error('Mistake in Scoreline: index.html has no root');
createRoot(root).render(
  <DoorsProvider doors={doors}>
    <Page />
  </DoorsProvider>,
);
