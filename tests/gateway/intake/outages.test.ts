import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { link, moment, pause, record, type Recorded, until, type Wish } from './fixture.ts';
import { endAll, endLater, initial, listen, serve, up } from './listening.ts';
import { type Cable, lay } from './proxy.ts';

afterEach(endAll, 60_000);

async function lineOnCable(wish: Partial<Wish> = {}) {
  const server = await serve();
  initial(server);
  const cable: Cable = await lay(server.port);
  endLater(cable.close);
  const recorded: Recorded = listen({ endpoint: cable.endpoint, ...wish });
  await up(recorded);
  return { server, cable, recorded };
}

const links = (recorded: Recorded) => recorded.of(link).map(({ value }) => value);

describe('outages', { timeout: 180_000 }, () => {
  it('ends while its keys are still being made, though the server is not there', async () => {
    const pkiFolder = mkdtempSync(join(tmpdir(), 'scoreline-test-keys-'));
    endLater(async () => rmSync(pkiFolder, { recursive: true, force: true }));
    const { intake, changes } = record({ endpoint: 'opc.tcp://127.0.0.1:1', pkiFolder });
    await until('its keys are begun', () => readdirSync(pkiFolder).length > 0);
    await intake.stop();
    expect(intake.status().up).toBe(false);
    expect(changes.map(({ value }) => value)).not.toContain(true);
  });

  it('a cut cable: the server keeps the values, nothing is missed, and the link says so', async () => {
    const { server, cable, recorded } = await lineOnCable();
    for (let n = 101; n <= 110; n += 1) {
      server.set('Count', n, moment());
      await pause(60);
    }
    cable.cut();
    await until('lost', () => links(recorded).at(-1) === false);
    for (let n = 111; n <= 130; n += 1) {
      server.set('Count', n, moment());
      await pause(30);
    }
    cable.mend();
    await until('heard', () => links(recorded).length === 3);
    server.set('Count', 131, moment());
    await until('the last count', () => recorded.of(1).at(-1)?.value === 131);
    expect(links(recorded)).toEqual([true, false, 'whole']);
    expect(recorded.of(1).map(({ value }) => value)).toEqual(Array.from({ length: 32 }, (_, n) => 100 + n));
    const whole = recorded.changes.findIndex(({ value }) => value === 'whole');
    const held = recorded.changes.slice(0, whole).filter(({ signal }) => signal === 1);
    expect(held.at(-1)!.value).toBe(130);
    expect(recorded.changes[whole]!.at).toBeGreaterThanOrEqual(held.at(-1)!.at);
  });

  it('a change sent into a dead cable after a keep-alive is not lost', async () => {
    const { server, cable, recorded } = await lineOnCable();
    await pause(5000); // keep-alives only
    cable.dark();
    server.set('Text', 'stopped in the dark', moment());
    await pause(1500); // the server publishes into the dark
    cable.cut();
    await until('lost', () => links(recorded).at(-1) === false);
    cable.mend();
    await until('heard', () => links(recorded).length === 3);
    expect(recorded.of(3).map(({ value }) => value)).toEqual(['ready', 'stopped in the dark']);
    expect(links(recorded)).toEqual([true, false, 'whole']);
  });

  it('a queue that overflowed in an outage leaves a gap', async () => {
    const { server, cable, recorded } = await lineOnCable({ settings: { queue: 5 } });
    cable.cut();
    await until('lost', () => links(recorded).at(-1) === false);
    for (let n = 101; n <= 120; n += 1) server.set('Count', n, moment(n));
    cable.mend();
    await until('heard', () => links(recorded).length === 3);
    expect(links(recorded)).toEqual([true, false, true]);
    expect(recorded.of(1).at(-1)!.value).toBe(120);
    const counts = recorded.of(1).map(({ value }) => value as number);
    expect(new Set(counts).size).toBe(counts.length);
  });

  it('a cable that goes dark is told as lost from the last word heard, without anybody closing it', async () => {
    const { cable, recorded } = await lineOnCable();
    await pause(500);
    cable.dark();
    const dark = moment();
    await until('lost', () => links(recorded).at(-1) === false);
    expect(recorded.of(link).at(-1)!.at).toBeLessThanOrEqual(dark + 2_000_000);
    cable.cut();
    cable.mend();
    await until('heard', () => links(recorded).length === 3);
  });

  it('more than can be held back in an outage drops the oldest and leaves a gap', async () => {
    const { server, cable, recorded } = await lineOnCable({ settings: { heldMost: 10 } });
    cable.cut();
    await until('lost', () => links(recorded).at(-1) === false);
    for (let n = 101; n <= 130; n += 1) {
      server.set('Count', n, moment(n));
      if (n === 115) await pause(600);
    }
    cable.mend();
    await until('heard', () => links(recorded).length === 3);
    expect(links(recorded)).toEqual([true, false, true]);
    expect(recorded.of(1).at(-1)!.value).toBe(130);
  });
});

it('a server that watches two tags only says so of the others, and they are not known for what they read once', {
  timeout: 180_000,
}, async () => {
  const server = await serve({ itemsMost: 2 });
  initial(server);
  const recorded = listen({ endpoint: server.endpoint });
  await up(recorded);
  expect(recorded.of(0).at(-1)).toMatchObject({ value: 6 });
  expect(recorded.of(1).at(-1)).toMatchObject({ value: 100 });
  const refused = 0x80db0000; // BadTooManyMonitoredItems
  for (const signal of [2, 3])
    expect(recorded.of(signal).at(-1)).toMatchObject({ value: null, status: refused });
  server.set('Stop', true, moment());
  server.set('Count', 101, moment());
  await until('the count', () => recorded.of(1).at(-1)?.value === 101);
  expect(recorded.of(2).every(({ value }) => value === null)).toBe(true);
  const { items } = recorded.intake.status();
  expect([...items].map(([, { kind }]) => kind)).toEqual(['good', 'good', 'unreadable', 'unreadable']);
});
