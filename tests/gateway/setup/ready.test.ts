import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const script = resolve(import.meta.dirname, '../../../gateway/setup/ready.mjs');
let clone: string;

/** A clone with one package, which stands in for the database and needs no network. */
beforeEach(() => {
  clone = mkdtempSync(join(tmpdir(), 'scoreline-ready-'));
  mkdirSync(join(clone, 'gateway/setup'), { recursive: true });
  cpSync(script, join(clone, 'gateway/setup/ready.mjs'));
  writeDatabase('module.exports = class { exec() {} };');
  const dependencies = { 'better-sqlite3': 'file:database' };
  writeJson('package.json', { name: 'clone', version: '1.0.0', dependencies });
  writeJson('package-lock.json', {
    name: 'clone',
    version: '1.0.0',
    lockfileVersion: 3,
    requires: true,
    packages: {
      '': { name: 'clone', version: '1.0.0', dependencies },
      database: { name: 'better-sqlite3', version: '1.0.0' },
      'node_modules/better-sqlite3': { resolved: 'database', link: true },
    },
  });
});

afterEach(() => rmSync(clone, { recursive: true, force: true }));

function writeJson(file: string, content: unknown): void {
  writeFileSync(join(clone, file), JSON.stringify(content, null, 2));
}

function writeDatabase(source: string): void {
  mkdirSync(join(clone, 'database'), { recursive: true });
  writeJson('database/package.json', { name: 'better-sqlite3', version: '1.0.0', main: 'index.js' });
  writeFileSync(join(clone, 'database/index.js'), source);
}

function ready(target: string, environment: NodeJS.ProcessEnv = {}): SpawnSyncReturns<string> {
  return spawnSync(process.execPath, [join(clone, 'gateway/setup/ready.mjs'), target], {
    encoding: 'utf8',
    env: { ...process.env, CHROMIUM: process.execPath, npm_config_offline: 'true', ...environment },
  });
}

describe('making a clone ready', () => {
  it('installs what is missing, says so, and says nothing the second time', () => {
    const first = ready('test');
    expect(first.stderr).toBe('');
    expect(first.stdout).toMatch(/^Installing what Scoreline stands on[\s\S]*Installed in \d+ s\.\n$/);
    expect(first.status).toBe(0);
    expect(existsSync(join(clone, 'node_modules/better-sqlite3/index.js'))).toBe(true);
    const second = ready('start');
    expect([second.status, second.stdout, second.stderr]).toEqual([0, '', '']);
  });

  it('installs again when the lock file changed, and keeps what already fits', () => {
    ready('start');
    const lock = readFileSync(join(clone, 'package-lock.json'), 'utf8');
    writeFileSync(join(clone, 'package-lock.json'), `${lock}\n`);
    const fits = ready('start');
    expect([fits.status, fits.stdout]).toEqual([0, '']);
    rmSync(join(clone, 'node_modules/.package-lock.json'));
    rmSync(join(clone, 'node_modules/.scoreline-stamp'));
    expect(ready('start').stdout).toContain('Installed in');
  });

  it('a database that does not run here is told, and is no success', () => {
    writeDatabase("throw new Error('wrong binary');");
    const tried = ready('start');
    expect(tried.status).toBe(1);
    expect(tried.stderr).toContain('better-sqlite3, which keeps the tape, does not run here.');
    expect(tried.stderr).toContain('It said: Error: wrong binary');
    expect(existsSync(join(clone, 'node_modules/.scoreline-stamp'))).toBe(false);
  });

  it('a CHROMIUM that points nowhere is told, for tests only', () => {
    expect(ready('start', { CHROMIUM: '/nowhere/chromium' }).status).toBe(0);
    const tried = ready('test', { CHROMIUM: '/nowhere/chromium' });
    expect(tried.status).toBe(1);
    expect(tried.stderr).toContain('There is no program at /nowhere/chromium.');
  });

  it('what it does not know is refused in words', () => {
    const tried = ready('dance');
    expect(tried.status).toBe(1);
    expect(tried.stderr).toContain('It has to be called with start or test.');
  });
});
