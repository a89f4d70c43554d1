import { join, resolve } from 'node:path';
import { wordsIn } from '../../model/words/words.ts';
import { LINE_FOLDER } from '../backup/backup.ts';
import { restore } from '../backup/restore.ts';
import { badOption } from './badOption.ts';
import type { Command } from './commands.ts';
import { readCommandLine } from './commandArguments.ts';

const words = wordsIn('en').gateway.backup;
const text = { type: 'string' } as const;

/** `npm start -- restore FOLDER --data DIR` */
export const restoreCommand: Command = async (args, work, say) => {
  const { values, places } = readCommandLine(args, { data: text, help: { type: 'boolean' } }, 1);
  if (values.help) return say(words.restoreUsage);
  const [place] = places;
  if (place === undefined || place.trim() === '') throw badOption(words.oneFolder);
  if (values.data === undefined || values.data.trim() === '') throw badOption(words.dataNeeded);
  const data = resolve(values.data);
  const { files, lines } = await restore(resolve(place), data, work);
  say(words.restored(data));
  for (const { id, sha256 } of lines) say(words.restoredLine(id, sha256));
  const lineFile = files.find(({ name }) => isLineFile(name));
  if (lineFile) say(words.startLine(join(data, lineFile.name), data));
  else if (files.some(({ name }) => name === 'demo.json')) say(words.startDemo(data));
};

function isLineFile(name: string): boolean {
  return name.startsWith(`${LINE_FOLDER}/`) && /\.ya?ml$/.test(name) && !/\.symptoms\.ya?ml$/.test(name);
}
