import { afterEach, expect, it } from 'vitest';
import { startWatcher, type Watcher } from '../../../gateway/notices/watcher.ts';
import { FIRST_SETTINGS } from '../../../model/notices/settings.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { changes, smallLine } from '../../model/smallLine.ts';
import { entry, msAt, type Stand, stand } from '../live/shell.ts';
import { goods, running } from '../../model/smallLine.ts';

const line = smallLine();
const ended: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const end of ended.splice(0).reverse()) await end();
});

const recipients = [{ person: '12', ways: ['mail'], when: { quiet: [] } }];

async function watching(): Promise<{ stood: Stand; watcher: Watcher; offered: string[]; warned: string[] }> {
  const stood = await stand(line, { second: 40 });
  ended.push(() => stood.live.stop());
  await stood.live.offer(changes(line, [...running(), ...goods(1, 39, 1)]));
  await stood.live.enter({
    ...entry('settings', 39, {
      kind: 'noticeSettings',
      settings: { ...FIRST_SETTINGS, who: { recipients, rotas: [], plans: [] } },
      why: 'one person',
    }),
    author: { kind: 'person', number: '1' },
  });
  const [offered, warned]: [string[], string[]] = [[], []];
  const unread = () => {
    throw new LineError('The records cannot be read', { why: 'busy', mend: 'wait' });
  };
  const watcher = startWatcher({
    live: stood.live,
    now: () => msAt(stood.clock.second),
    outside: () => ({ servers: [] }),
    stations: unread,
    tested: unread,
    disk: async () => undefined,
    isOpenFor: () => false,
    offer: ({ kind }, tellings) => void offered.push(...tellings.map(({ person }) => `${kind} ${person}`)),
    log: { warn: (words: unknown) => void warned.push(String(words)) } as never,
  });
  ended.push(() => watcher.stop());
  return { stood, watcher, offered, warned };
}

it('[NL8] a press is raised and told also while the past cannot be read, which is said once', async () => {
  const { stood, watcher, offered, warned } = await watching();
  await stood.live.offer(changes(line, [[40, 'panel', true]]));
  await watcher.turn();
  await watcher.turn();
  expect(stood.live.fold().state.notices.map(({ kind }) => kind)).toEqual(['press']);
  expect(new Set(offered)).toEqual(new Set(['press 12']));
  expect(warned).toHaveLength(1);
  expect(warned[0]).toContain('The records cannot be read');
});
