import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { openToRead } from '../tape/database.ts';
import { onDisk } from '../tape/diskTrouble.ts';
import { Records } from './records.ts';
import { areRecords } from './schema.ts';

/** How long it waits for the gateway that writes them. Milliseconds. */
const BUSY_MS = 5000;

/** The records of a data folder to be read alone, also while a gateway writes them; undefined where there are none that serve. */
export function recordsToRead(folder: string): Records | undefined {
  const file = join(folder, 'records.sqlite');
  if (!existsSync(file)) return undefined;
  return onDisk(file, () => {
    const database = openToRead(file, BUSY_MS);
    if (areRecords(database)) return new Records(database);
    database.close();
    return undefined;
  });
}
