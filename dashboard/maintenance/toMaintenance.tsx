import { words } from '../app/words.ts';

/** The way from what stopped to what was done about it. */
export function ToMaintenance() {
  return (
    <a className="btn plain" href="/maintenance">
      {words.screen.past.maintenance.to}
    </a>
  );
}
