/**
 * Makes a fresh clone ready: `node gateway/setup/ready.mjs start|test`. npm runs it before `start` and `test`, when there
 * may be no node_modules yet, so it is plain JavaScript on Node alone. When there is nothing to do it says nothing.
 */
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { accessSync, constants, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, join, resolve } from 'node:path';

/** Its sentences stand here: the catalogue in model/words is TypeScript, which cannot be read before the installation. */
const words = {
  otherNode: (version) => ({
    what: `Scoreline does not run on Node ${version}.`,
    why: 'It runs on Node 20 from 20.19 on, on 22 from 22.12 on, and on 24 and later; what lies between is not kept up.',
    mend: 'Install one of these, and run the same command again.',
  }),
  badCall: {
    what: 'gateway/setup/ready.mjs does not know what to make ready.',
    why: 'It has to be called with start or test.',
    mend: 'Use npm start or npm test.',
  },
  installing: 'Installing what Scoreline stands on. This happens once, and takes a minute or two …',
  stillInstalling: (seconds) => `… still installing (${seconds} s)`,
  installed: (seconds) => `Installed in ${seconds} s.`,
  noInstall: (code) => ({
    what: 'The packages could not be installed.',
    why: `npm ended with ${code}; what it said stands above.`,
    mend: 'Check that this machine reaches its package registry and may write to this folder. Where no ready-made better-sqlite3 can be fetched it is compiled: that needs python3, make and a C++ compiler.',
  }),
  noDatabase: (said) => ({
    what: 'better-sqlite3, which keeps the tape, does not run here.',
    why: said === '' ? 'Its process ended without a word.' : `It said: ${said}`,
    mend: 'Delete the folder node_modules and run the same command again. If it has to be compiled, that needs python3, make and a C++ compiler.',
  }),
  fetchingBrowser: 'No Chromium here. Installing Debian’s package for the browser tests …',
  badBrowser: (path) => ({
    what: `There is no program at ${path}.`,
    why: 'The variable CHROMIUM names the browser for the tests, and points nowhere.',
    mend: 'Correct CHROMIUM, or unset it.',
  }),
  noBrowser: {
    what: 'There is no Chromium for the browser tests.',
    why: 'None was found under its usual names, and it can be installed without asking only as root on Debian.',
    mend: 'Install Chromium, or set the variable CHROMIUM to the path of one.',
  },
};

/** Trouble that a person can mend, told in three sentences. */
class Trouble extends Error {
  constructor({ what, why, mend }) {
    super(`${what}\n${why}\n${mend}`);
  }
}

const root = resolve(import.meta.dirname ?? new URL('.', import.meta.url).pathname, '../..');
const modules = join(root, 'node_modules');
const stampFile = join(modules, '.scoreline-stamp');

async function makeReady(target) {
  if (!nodeFits(process.versions.node)) throw new Trouble(words.otherNode(process.versions.node));
  if (target !== 'start' && target !== 'test') throw new Trouble(words.badCall);
  const wanted = stamp();
  if (readIfThere(stampFile) !== wanted) {
    if (!(isInstalled() && databaseTrouble() === undefined)) await install();
    writeFileSync(stampFile, wanted);
  }
  if (target === 'test') findBrowser();
}

/** The same versions stand in package.json and in the README; a test holds them together. */
function nodeFits(version) {
  const [major, minor] = version.split('.').map(Number);
  return (major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major >= 24;
}

/** What the installed packages belong to: these versions, this Node's binary interface, this kind of processor. */
function stamp() {
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
  return `${lock} ${process.versions.modules} ${process.platform}-${process.arch}\n`;
}

/** Whether npm already installed exactly what the lock file says, so that nothing has to be fetched again. */
function isInstalled() {
  const hidden = readIfThere(join(modules, '.package-lock.json'));
  if (hidden === undefined) return false;
  const there = JSON.parse(hidden).packages ?? {};
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages ?? {};
  return Object.entries(wanted).every(
    ([path, { version, optional }]) =>
      path === '' || optional === true || (path in there && there[path].version === version),
  );
}

async function install() {
  console.log(words.installing);
  const began = Date.now();
  const seconds = () => Math.round((Date.now() - began) / 1000);
  const progress = setInterval(() => console.log(words.stillInstalling(seconds())), 15_000);
  const code = await runNpm(['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error']);
  clearInterval(progress);
  if (code !== 0) throw new Trouble(words.noInstall(code));
  const said = databaseTrouble();
  if (said !== undefined) throw new Trouble(words.noDatabase(said));
  console.log(words.installed(seconds()));
}

/** Exit code of npm, or the name of what kept it from running. Its own words go to the terminal. */
function runNpm(options) {
  const npm = process.env.npm_execpath;
  const byNode = npm !== undefined && /\.[cm]?js$/.test(npm);
  const [program, first] = byNode ? [process.execPath, [npm]] : ['npm', []];
  return new Promise((settle) => {
    const child = spawn(program, [...first, ...options], {
      cwd: root,
      stdio: ['ignore', 'inherit', 'inherit'],
      shell: !byNode && process.platform === 'win32',
    });
    child.once('error', (error) => settle(error.code ?? error.message));
    child.once('exit', (code, signal) => settle(code ?? signal));
  });
}

/** What better-sqlite3 says instead of working; undefined when it works. In a process of its own, as it may crash. */
function databaseTrouble() {
  const script = "new (require('better-sqlite3'))(':memory:').exec('select 1')";
  const tried = spawnSync(process.execPath, ['-e', script], { cwd: root, encoding: 'utf8' });
  if (tried.status === 0) return undefined;
  const error = tried.stderr.split('\n').find((line) => /^\w*Error\b/.test(line));
  return (error ?? tried.signal ?? '').trim().slice(0, 300);
}

function findBrowser() {
  const named = process.env.CHROMIUM;
  if (named !== undefined && named !== '') {
    if (!isProgram(named)) throw new Trouble(words.badBrowser(named));
    return;
  }
  if (browserThere()) return;
  if (process.platform === 'linux' && process.getuid?.() === 0 && onPath('apt-get')) {
    console.log(words.fetchingBrowser);
    const options = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    spawnSync('apt-get', ['update', '-q'], options);
    spawnSync('apt-get', ['install', '-q', '-y', '--no-install-recommends', 'chromium'], options);
  }
  if (!browserThere()) throw new Trouble(words.noBrowser);
}

function browserThere() {
  const names = ['chromium', 'google-chrome', 'google-chrome-stable', 'chromium-browser'];
  return isProgram('/usr/bin/chromium') || names.some(onPath);
}

function onPath(name) {
  return (process.env.PATH ?? '')
    .split(delimiter)
    .some((folder) => folder !== '' && isProgram(join(folder, name)));
}

function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false; // not there, or not to be run: both mean that there is none
  }
}

function readIfThere(path) {
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
}

try {
  await makeReady(process.argv[2]);
} catch (error) {
  if (!(error instanceof Trouble)) throw error;
  console.error(error.message);
  process.exitCode = 1;
}
