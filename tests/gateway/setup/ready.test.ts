import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../../..');
const script = join(root, 'gateway/setup/ready.mjs');
interface Package {
  readonly engines: { readonly node: string };
}

/** Whether a version lies in `^20.19.0` or `>=24.0.0`, the two forms that package.json uses. */
function isIn(range: string, version: string): boolean {
  const [, form, ...from] = /^(\^|>=)(\d+)\.(\d+)\.(\d+)$/.exec(range) ?? [];
  if (form === undefined) throw new Error(`a form this test does not read: ${range}`);
  const [low, there] = [from, version.split('.')].map((parts) => parts.map(Number));
  const [major, minor, patch] = [0, 1, 2].map((place) => there![place]! - low![place]!);
  const later = major! > 0 || (major === 0 && (minor! > 0 || (minor === 0 && patch! >= 0)));
  return later && (form === '>=' || major === 0);
}
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

  it.each([
    ['18.20.8', false],
    ['20.18.3', false],
    ['20.19.0', true],
    ['21.7.3', false],
    ['22.11.0', false],
    ['22.12.0', true],
    ['23.11.1', false],
    ['24.0.0', true],
    ['26.1.0', true],
  ])('Node %s is taken: %s, as package.json and the README say', (version, taken) => {
    const pretend = `Object.defineProperty(process.versions, 'node', { value: '${version}' })`;
    // with a call it does not know, so that nothing is installed: which of the two troubles comes tells
    const { status, stderr } = ready('dance', {
      NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(pretend)}`,
    });
    expect(status).toBe(1);
    if (taken) expect(stderr).toContain('It has to be called with start or test.');
    else {
      expect(stderr).toContain(`Scoreline does not run on Node ${version}.`);
      expect(stderr).toContain('20 from 20.19 on, on 22 from 22.12 on, and on 24 and later');
    }
    const { engines } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Package;
    expect(engines.node.split(' || ').some((range) => isIn(range, version))).toBe(taken);
  });

  it('the README and the lock file name the same versions of Node as package.json', () => {
    const { engines } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Package;
    expect(engines.node).toBe('^20.19.0 || ^22.12.0 || >=24.0.0');
    const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as {
      packages: { '': Package };
    };
    expect(lock.packages[''].engines).toEqual(engines);
    const readme = readFileSync(join(root, 'README.md'), 'utf8').replaceAll(/\s+/g, ' ');
    expect(readme).toContain('Node: 20 from 20.19 on, 22 from 22.12 on, or 24 and later');
  });

  it('what it does not know is refused in words', () => {
    const tried = ready('dance');
    expect(tried.status).toBe(1);
    expect(tried.stderr).toContain('It has to be called with start or test.');
  });
});
