import { statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { wordsIn } from '../../model/words/words.ts';
import { backUp, withNeighbours } from '../backup/backup.ts';
import { MANIFEST } from '../backup/manifest.ts';
import { readLineFile } from '../binding/binding.ts';
import { symptomsPath } from '../binding/symptomsFile.ts';
import { badOption } from './badOption.ts';
import type { Command } from './commands.ts';
import { readCommandLine } from './commandArguments.ts';
import { checkFolder } from './dataFolder.ts';

const words = wordsIn('en').gateway.backup;
const text = { type: 'string' } as const;
const yes = { type: 'boolean' } as const;

/** `npm start -- backup FOLDER` */
export const backupCommand: Command = async (args, work, say) => {
  const { values, places } = readCommandLine(
    args,
    { line: text, data: text, 'with-keys': yes, help: yes },
    1,
  );
  if (values.help) return say(words.usage);
  const [place] = places;
  if (place === undefined || place.trim() === '') throw badOption(words.oneFolder);
  const folder = resolve(place);
  const line = values.line === undefined ? undefined : resolve(values.line);
  const data = resolve(values.data ?? (line === undefined ? 'data/demo' : 'data'));
  checkFolder({ line, data });
  const keys = values['with-keys'] ?? false;
  const lineFiles = line === undefined ? [] : await filesOf(line);
  const backup = await backUp({ folder, data, lineFiles, keys, now: Date.now() }, work);
  const bytes = backup.files.reduce((sum, file) => sum + file.bytes, statSync(join(folder, MANIFEST)).size);
  say(words.made(folder, backup.files.length + 1, (bytes / 1e6).toFixed(1)));
  for (const { id, begin, end, unread, sha256 } of backup.lines) {
    say(words.line(id, end - begin, end, sha256));
    if (unread > 0) say(words.unread(unread));
  }
  if (backup.leftOut.length > 0) say(words.leftOut(backup.leftOut));
  say(keys ? words.withKeys : words.noKeys);
  if (backup.files.some(({ name }) => name === 'people.sqlite')) say(words.people);
};

async function filesOf(line: string): Promise<readonly string[]> {
  const { ordersFile } = await readLineFile(line);
  return withNeighbours(line, [symptomsPath(line), ordersFile]);
}
