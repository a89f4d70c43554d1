import { spawn } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { wordsIn } from '../model/words/words.ts';

/**
 * `npm test`: types, lint, then every test under tests/. What follows `--` goes to the test runner, such as a folder.
 * The last line is the sum, in which types and lint count as one each; without a test the run has failed.
 */
const words = wordsIn('en').checks;
const root = resolve(import.meta.dirname, '..');

interface Sum {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

/** The parts of the test runner's report that are counted. */
interface Report {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly numTodoTests: number;
  readonly testResults: readonly {
    readonly status: string;
    readonly assertionResults: readonly { readonly status: string }[];
  }[];
}

async function check(name: 'types' | 'lint', program: string, options: readonly string[]): Promise<Sum> {
  console.log(words.begins(name));
  const passed = (await run(program, options)) === 0;
  console.log(words.ended(name, passed));
  return { passed: passed ? 1 : 0, failed: passed ? 0 : 1, skipped: 0 };
}

async function test(filters: readonly string[]): Promise<Sum> {
  console.log(words.begins('tests'));
  const folder = await mkdtemp(join(tmpdir(), 'scoreline-tests-'));
  const file = join(folder, 'report.json');
  try {
    const code = await run('vitest', [
      'run',
      '--config=tests/vitest.config.ts',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${file}`,
      ...filters,
    ]);
    return sumOf(await reportFrom(file), code);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Undefined when the runner ended before it wrote one. */
async function reportFrom(file: string): Promise<Report | undefined> {
  try {
    return JSON.parse(await readFile(file, 'utf8')) as Report;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}

/** A file that fails outside its tests counts as one failure, and so does a runner that is not content. */
function sumOf(report: Report | undefined, code: number): Sum {
  if (report === undefined) {
    console.log(words.noReport);
    return { passed: 0, failed: 1, skipped: 0 };
  }
  const broken = report.testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((result) => result.status === 'failed'),
  );
  const { numPassedTests: passed, numFailedTests, numPendingTests, numTodoTests } = report;
  const skipped = numPendingTests + numTodoTests;
  const failed = numFailedTests + broken.length;
  if (passed + failed === 0) console.log(words.noTests);
  else if (code !== 0 && failed === 0) console.log(words.outsideTests);
  else return { passed, failed, skipped };
  return { passed, failed: 1, skipped };
}

/** Runs one of the installed programs to its end; its output goes to the terminal. */
function run(program: string, options: readonly string[]): Promise<number> {
  return new Promise((settle, refuse) => {
    const child = spawn(join(root, 'node_modules/.bin', program), options, {
      cwd: root,
      stdio: ['ignore', 'inherit', 'inherit'],
      shell: process.platform === 'win32',
    });
    child.once('error', refuse);
    child.once('exit', (code) => settle(code ?? 1));
  });
}

const sums = [
  await check('types', 'tsc', ['--noEmit']),
  await check('lint', 'biome', ['check', '--error-on-warnings', '.']),
  await test(process.argv.slice(2)),
];
const total = sums.reduce((sum, next) => ({
  passed: sum.passed + next.passed,
  failed: sum.failed + next.failed,
  skipped: sum.skipped + next.skipped,
}));
console.log(words.total(total.passed, total.failed, total.skipped));
process.exitCode = total.failed > 0 ? 1 : 0;
