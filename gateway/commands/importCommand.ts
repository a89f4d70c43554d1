import { resolve } from 'node:path';
import { wordsIn } from '../../model/words/words.ts';
import { importTape } from '../backup/importTape.ts';
import { readLineFile } from '../binding/binding.ts';
import { badOption } from './badOption.ts';
import { readCommandLine } from './commandArguments.ts';
import type { Command } from './commands.ts';
import { checkFolder } from './dataFolder.ts';

const words = wordsIn('en').gateway.importing;
const text = { type: 'string' } as const;
const options = { line: text, data: text, 'from-line': text, help: { type: 'boolean' } } as const;

/** `npm start -- import SOURCE --line FILE` */
export const importCommand: Command = async (args, work, say) => {
  const { values, places } = readCommandLine(args, options, 1);
  if (values.help) return say(words.usage);
  const [source] = places;
  if (source === undefined || source.trim() === '') throw badOption(words.oneSource);
  if (values.line === undefined || values.line.trim() === '') throw badOption(words.lineNeeded);
  const lineFile = resolve(values.line);
  const { line } = await readLineFile(lineFile);
  const data = resolve(values.data ?? 'data');
  checkFolder({ line: lineFile, data });
  const from = values['from-line'] ?? line.id;
  const done = await importTape({ source: resolve(source), data, line, from }, work);
  say(words.done(line.name, done.changes, done.begin));
  say(words.hash(done.sha256));
  if (done.unknown.length > 0) say(words.unknown(done.unknown));
  if (done.missing.length > 0) say(words.missing(done.missing));
  if (done.ended > 0) say(words.ended);
  say(words.next);
};
