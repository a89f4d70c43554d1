import { describe, expect, it } from 'vitest';
import { signalRows } from '../../../gateway/api/signalRows.ts';
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
