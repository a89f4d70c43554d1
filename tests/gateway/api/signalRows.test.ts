import { describe, expect, it } from 'vitest';
import { signalRows } from '../../../gateway/api/signalRows.ts';
import type { Intake } from '../../../gateway/intake/intake.ts';
import { changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { stand } from '../live/shell.ts';

/** Two servers: what the second tells, its link included, stands behind what the first does. */
const small = smallLine();
const beside = { machine: 'cartoner', server: 'scale', type: 'number' } as const;
const line = {
  ...small,
  servers: ['plc', 'scale'],
  signals: [
    ...small.signals,
    { ...beside, id: 'air', role: 'condition', of: 'air', index: small.signals.length },
    { ...beside, id: 'scaleLink', role: 'link', type: 'text', index: small.signals.length + 1 },
  ],
} as const;
const server = { endpoint: 'opc.tcp://127.0.0.1:1', security: 'none', clock: 'utc', namespace: '' } as const;
const link = small.signals.find(({ role }) => role === 'link')!.id;

/** Qualities by signal, after so many rows; no server of this line has an intake here. */
async function qualities(...rows: Parameters<typeof changes>[1]) {
  const { live } = await stand(line, { second: 40 });
  await live.offer(changes(line, rows));
  const bound = { line, servers: [], tags: new Map() };
  return new Map(signalRows(bound, live, []).map((row) => [row.id, row.quality]));
}

describe('the quality of a signal', () => {
  it('is good while its server is heard, and not heard before a server ever was', async () => {
    const quality = await qualities(...running(), ...goods(1, 3, 1), [5, 'air', 6]);
    expect([quality.get('state'), quality.get('good')]).toEqual(['good', 'good']);
    expect([quality.get('air'), quality.get('scaleLink')]).toEqual(['notHeard', 'notHeard']);
  });

  it('is not heard once its server fell silent, whatever it told last, and only that of its own server', async () => {
    const told = [...running(), [1, 'scaleLink', true], ...goods(1, 3, 1), [5, 'air', 6]] as const;
    const quality = await qualities(...told, [10, link, false]);
    expect([quality.get('good'), quality.get(link)]).toEqual(['notHeard', 'notHeard']);
    expect([quality.get('air'), quality.get('scaleLink')]).toEqual(['good', 'good']);
  });

  it('is that of the value again when the server is heard again, with a hole or without one', async () => {
    const lost = [...running(), ...goods(1, 3, 1), [10, link, false]] as const;
    expect((await qualities(...lost, [20, link, 'whole'])).get('good')).toBe('good');
    const hole = await qualities(...lost, [20, link, true], [21, 'good', 9]);
    expect(hole.get('good')).toBe('good');
  });
});

describe('what may be missed of a stop device', () => {
  it('is said where no counted twin is bound, or where its server looks only now and then', async () => {
    const { live } = await stand(line, { second: 40 });
    await live.offer(changes(line, running()));
    const place = (id: string) => line.signals.find((signal) => signal.id === id)!.index;
    const missable = (sampling?: number, queue = 10) => {
      const revised = new Map(
        ['panel', 'circuit', 'good'].map((id) => [
          place(id),
          { sampling: sampling!, queue, publishing: 250 },
        ]),
      );
      const intake = { status: () => ({ revised, items: new Map() }), stop: async () => {} };
      const bound = { line, servers: [{ ...server, id: 'plc' }], tags: new Map() };
      const intakes = sampling === undefined ? [] : [intake as unknown as Intake];
      const rows = new Map(signalRows(bound, live, intakes).map((row) => [row.id, row.missable]));
      return ['panel', 'circuit', 'good'].map((id) => rows.get(id));
    };
    const noTwin = 'It has no counted twin: a press while its server is not heard may be missed.';
    expect(missable()).toEqual([null, noTwin, null]);
    expect(missable(0)).toEqual([null, noTwin, null]);
    expect(missable(500)).toEqual([
      'Its server looks every 500 ms: of a shorter press the moment may be missed, and its counted twin tells only that it was.',
      'It has no counted twin, and its server looks only every 500 ms: a shorter press may be missed.',
      null,
    ]);
    expect(missable(0, 1)).toEqual([
      'Its server keeps one value between two publishes, 250 ms apart: of a shorter press the moment may be missed, and its counted twin tells only that it was.',
      'It has no counted twin, and its server keeps one value between two publishes, 250 ms apart: a shorter press may be missed.',
      null,
    ]);
    expect(missable(500, 1)).toEqual(missable(500));
  });
});
