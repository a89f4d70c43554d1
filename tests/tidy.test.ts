import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '..');
const files = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard'], {
  cwd: root,
  encoding: 'utf8',
})
  .split('\n')
  .filter((file) => /\.(ts|tsx|mjs)$/.test(file));
const sources = new Map<string, string>();
for (const file of files) {
  try {
    sources.set(file, readFileSync(join(root, file), 'utf8'));
  } catch (error) {
    // a file that git still lists but that was just deleted
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
}

const folders = ['model', 'gateway', 'simulator', 'dashboard', 'tests'];
/** Which of the main folders a file may import from. */
const may: Record<string, readonly string[]> = {
  model: ['model'],
  gateway: ['gateway', 'model'],
  simulator: ['simulator', 'model'],
  dashboard: ['dashboard', 'model'],
  tests: folders,
};

function importsOf(text: string): string[] {
  return [...text.matchAll(/(?:from\s+|import\s+|import\()'([^']+)'/g)].map(([, target]) => target!);
}

function topOf(path: string): string {
  return path.split('/')[0]!;
}

describe('tidiness', () => {
  it('finds the project’s files at all', () => {
    for (const folder of folders) {
      expect([...sources.keys()].filter((file) => topOf(file) === folder).length, folder).toBeGreaterThan(5);
    }
  });

  it('imports point one way: gateway, simulator, dashboard to model, and model to nothing', () => {
    const wrong: string[] = [];
    let seen = 0;
    for (const [file, text] of sources) {
      for (const target of importsOf(text)) {
        seen += 1;
        const local = target.startsWith('.');
        const into = local ? topOf(relative(root, resolve(root, dirname(file), target))) : 'npm';
        const allowed = may[topOf(file)];
        if (!allowed) continue;
        if (local ? !allowed.includes(into) : topOf(file) === 'model')
          wrong.push(`${file} imports ${target}`);
      }
    }
    expect(seen).toBeGreaterThan(100);
    expect(wrong).toEqual([]);
  });

  it('the model asks no clock, no chance and no machine', () => {
    const wrong = [...sources]
      .filter(([file]) => topOf(file) === 'model')
      .filter(([, text]) =>
        /\bDate\.now\(|new Date\(\)|Math\.random\(|\bprocess\.|\bglobalThis\b|performance\.now/.test(text),
      )
      .map(([file]) => file);
    expect(wrong).toEqual([]);
  });

  it('one file makes databases and statements, and keeps them: see there why', () => {
    const makes = /\bnew Database\(|\.prepare\(|\.pragma\(|\.iterate\(/;
    const making = [...sources].filter(([file, text]) => file !== 'tests/tidy.test.ts' && makes.test(text));
    expect(making.map(([file]) => file)).toEqual(['gateway/tape/database.ts']);
  });

  it('three files of the gateway know the OPC UA library, and DEVELOPERS.md names them', () => {
    const knowing = [...sources]
      .filter(
        ([file, text]) =>
          topOf(file) === 'gateway' && importsOf(text).some((from) => /^node-opcua/.test(from)),
      )
      .map(([file]) => file);
    const files = ['certificates.ts', 'channel.ts', 'client.ts'];
    expect(knowing.toSorted()).toEqual(files.map((file) => `gateway/intake/${file}`));
    const told = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
    for (const file of files) expect(told).toContain(`\`${file}\``);
  });

  it('every rule has a test, and every tag a rule', () => {
    const spec = readFileSync(join(root, 'model/SPEC.md'), 'utf8');
    const rules = new Set([...spec.matchAll(/^- \*\*\[([A-Z]{2}\d+)\]\*\*/gm)].map(([, tag]) => tag!));
    const tested = new Set<string>();
    for (const [file, text] of sources) {
      if (!/^tests\/.*\.test\.tsx?$/.test(file)) continue;
      for (const [, title] of text.matchAll(
        /\bit(?:\.each\([\s\S]*?\))?\(\s*['"`]((?:\[[A-Z]{2}\d+\]\s*)+)/g,
      )) {
        for (const [, tag] of title!.matchAll(/\[([A-Z]{2}\d+)\]/g)) tested.add(tag!);
      }
    }
    expect(rules.size).toBeGreaterThan(30);
    expect(
      [...rules].filter((tag) => !tested.has(tag)),
      'rules without a test',
    ).toEqual([]);
    expect(
      [...tested].filter((tag) => !rules.has(tag)),
      'tags without a rule',
    ).toEqual([]);
  });

  it('no catch-all file names, no default exports, no wholesale re-exports', () => {
    const wrong: string[] = [];
    for (const [file, text] of sources) {
      if (/(^|\/)(utils?|helpers?|common|misc|types|manager)\.tsx?$/.test(file)) wrong.push(file);
      if (!/\.config\.ts$/.test(file) && /^export default\b/m.test(text))
        wrong.push(`${file}: default export`);
      if (/^export \*/m.test(text)) wrong.push(`${file}: export *`);
    }
    expect(wrong).toEqual([]);
  });

  it('files stay below 350 lines and tests are not switched off', () => {
    const wrong: string[] = [];
    for (const [file, text] of sources) {
      const lines = text.split('\n').length;
      if (lines > 350 && !file.startsWith('tests/') && file !== 'model/words/english.ts')
        wrong.push(`${file}: ${lines} lines`);
      if (/\b(it|test|describe)\.(skip|only|todo)\b/.test(text) && file !== 'tests/tidy.test.ts')
        wrong.push(`${file}: switched off`);
    }
    expect(wrong).toEqual([]);
  });

  it('every main folder tells what it is for', () => {
    for (const folder of folders) {
      const text = readFileSync(join(root, folder, 'README.md'), 'utf8');
      expect(text.length, folder).toBeGreaterThan(300);
    }
  });
});
