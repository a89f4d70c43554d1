import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Asked, readArguments } from '../../../gateway/commands/arguments.ts';
import { checkFolder, setAsideUnlessSame } from '../../../gateway/commands/dataFolder.ts';
import { readRun, runOf } from '../../../gateway/commands/demo.ts';
import { lockFolder } from '../../../gateway/tape/folderLock.ts';
import { msAt } from '../live/shell.ts';
import { smallLine } from '../../model/smallLine.ts';

let parent: string;
let data: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'scoreline-folder-'));
  data = join(parent, 'data');
});
afterEach(() => rmSync(parent, { recursive: true }));

const now = msAt(3600);
const asked = (...args: string[]): Asked => readArguments(['--data', data, ...args]);

function demoRun(seed = 3, speed = 1): void {
  runOf(smallLine(), { data, seed, from: undefined, speed, now: () => now });
}

describe('a data folder', () => {
  it('of the demo takes no real line, and the other way round', () => {
    checkFolder(asked());
    checkFolder(asked('--line', 'line.yaml'));
    demoRun();
    checkFolder(asked());
    expect(() => checkFolder(asked('--line', 'line.yaml'))).toThrow(/holds the demo line’s tape/);
    rmSync(data, { recursive: true });
    mkdirSync(data);
    writeFileSync(join(data, 'tape.sqlite'), '');
    checkFolder(asked('--line', 'line.yaml'));
    expect(() => checkFolder(asked())).toThrow(/not the demo’s/);
  });

  it('stays where the same demo run goes on', () => {
    expect(setAsideUnlessSame(asked(), now)).toBeUndefined();
    demoRun();
    expect(setAsideUnlessSame(asked(), now)).toBeUndefined();
    expect(setAsideUnlessSame(asked('--seed', '3'), now)).toBeUndefined();
    expect(existsSync(data)).toBe(true);
  });

  it.each([
    ['another seed', ['--seed', '4'], now],
    ['a fresh beginning', ['--fresh'], now],
    ['another speed', ['--speed', '2'], now],
    ['a moment to begin at', ['--from', '2026-03-16T05:00Z'], now],
    ['a machine that began more than three days ago', [], now + 65 * 3_600_000],
  ])('is kept under another name for %s', (_what, args, at) => {
    demoRun();
    const aside = setAsideUnlessSame(asked(...args), at);
    expect(existsSync(data)).toBe(false);
    expect(readdirSync(aside!)).toContain('demo.json');
  });

  it.each([
    ['tape.sqlite', 15, true],
    ['tape.sqlite', 17, false],
    ['tape.sqlite-wal', 15, true],
  ])('whose %s was last written %s hours ago goes on: %s', (name, hours, goesOn) => {
    demoRun();
    const long = (now - 40 * 3_600_000) / 1000;
    const last = (now - hours * 3_600_000) / 1000;
    writeFileSync(join(data, 'tape.sqlite'), '');
    utimesSync(join(data, 'tape.sqlite'), long, long);
    writeFileSync(join(data, name), '');
    utimesSync(join(data, name), last, last);
    expect(setAsideUnlessSame(asked(), now) === undefined).toBe(goesOn);
  });

  it('of a run that was ahead of the clock is kept, and one made before runs had a speed goes on', () => {
    demoRun(3, 4);
    expect(setAsideUnlessSame(asked(), now)).toBeDefined();
    demoRun();
    writeFileSync(join(data, 'demo.json'), JSON.stringify({ seed: 3, fixed: false, began: now }));
    expect(setAsideUnlessSame(asked(), now)).toBeUndefined();
  });

  it.each(['', '{"seed":3', '{}', 'null', '{"seed":"3","fixed":false,"began":1}'])(
    'whose run nobody can read any more, as after a power cut, is kept too, and a new run begins: %s',
    (text) => {
      demoRun();
      writeFileSync(join(data, 'demo.json'), text);
      const aside = setAsideUnlessSame(asked(), now);
      expect(readdirSync(aside!)).toContain('demo.json');
      demoRun(4);
      expect(readRun(data)?.seed).toBe(4);
    },
  );

  it('that another process uses is left alone', () => {
    demoRun();
    const lock = lockFolder(data);
    try {
      expect(() => setAsideUnlessSame(asked('--fresh'), now)).toThrow(/is in use/);
      expect(existsSync(join(data, 'demo.json'))).toBe(true);
    } finally {
      lock.release();
    }
  });
});

describe('a demo run', () => {
  it('begins with the shift before, and is the same machine at each start', () => {
    const line = smallLine();
    const first = runOf(line, { data, seed: undefined, from: undefined, speed: 1, now: () => now });
    expect(first.began).toBe(msAt(-8 * 3600));
    const later = runOf(line, {
      data,
      seed: undefined,
      from: undefined,
      speed: 1,
      now: () => now + 86_400_000,
    });
    expect(later).toEqual(first);
  });
});
