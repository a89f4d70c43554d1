import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Where the built dashboard stands. */
export const dashboardFolder = join(root, 'dashboard/dist');
const stampFile = join(dashboardFolder, '.stamp');

/** Whether the built dashboard is older than its sources. */
export function dashboardIsOld(): boolean {
  return !existsSync(stampFile) || readFileSync(stampFile, 'utf8') !== stampOf();
}

/**
 * Builds the dashboard for production, whoever asks: under a test the environment says otherwise, and what it would build then is
 * a library's slow self for its developers, which the next start would serve. Takes some seconds.
 */
export async function buildDashboard(): Promise<void> {
  const before = process.env.NODE_ENV;
  process.env.NODE_ENV = 'production';
  try {
    const { build } = await import('vite');
    await build({ configFile: join(root, 'dashboard/vite.config.ts'), logLevel: 'error' });
  } finally {
    if (before === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = before;
  }
  writeFileSync(stampFile, stampOf());
}

/** Names, sizes and times of what the dashboard is built from. */
function stampOf(): string {
  const hash = createHash('sha256');
  for (const folder of ['dashboard', 'model']) walk(join(root, folder), hash);
  for (const file of ['package-lock.json']) mark(join(root, file), hash);
  return hash.digest('hex');
}

function walk(folder: string, hash: ReturnType<typeof createHash>): void {
  for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) =>
    a.name < b.name ? -1 : 1,
  )) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      if (entry.name !== 'dist' && entry.name !== 'node_modules') walk(path, hash);
    } else mark(path, hash);
  }
}

function mark(file: string, hash: ReturnType<typeof createHash>): void {
  const { size, mtimeMs } = statSync(file);
  hash.update(`${file.slice(root.length)} ${size} ${Math.round(mtimeMs)}\n`);
}
