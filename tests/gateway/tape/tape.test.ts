import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { tapeContract } from './contract.ts';
import { Memory, openMemoryTape } from './memoryTape.ts';

tapeContract('SQLite', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'tape-'));
  return {
    open: (lines) => openSqliteTape(folder, lines),
    remove: async () => rmSync(folder, { recursive: true }),
  };
});

tapeContract('plain memory', async () => {
  const memory = new Memory();
  return { open: async (lines) => openMemoryTape(memory, lines), remove: async () => {} };
});
