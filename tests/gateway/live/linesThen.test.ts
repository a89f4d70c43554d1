import { describe, expect, it } from 'vitest';
import { LinesThen, TooManyThen } from '../../../gateway/live/linesThen.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import { changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { stand } from './shell.ts';

const line = smallLine();

/** Twenty cartons on a tape that tells how often it was folded again. */
async function counted() {
  const { live, tape } = await stand(line, { second: 21 });
  await live.offer(changes(line, [...running(), ...goods(1, 60, 1)]));
  let folded = 0;
  const counting: Tape = {
    ...tape,
    nearest: (...asked) => {
      folded += 1;
      return tape.nearest(...asked);
    },
  };
  return { live, lines: new LinesThen(counting), folded: () => folded };
}

describe('lines as they stood at positions of their tapes', () => {
  it('[AS1] are folded once for all who ask of one position, and again when eight others were asked for since', async () => {
    const { live, lines, folded } = await counted();
    const [one, other] = await Promise.all([lines.at(live, 30), lines.at(live, 30)]);
    expect(other).toBe(one);
    for (let position = 31; position < 38; position += 1) await lines.at(live, position);
    expect(await lines.at(live, 30)).toBe(one);
    expect(folded()).toBe(8);
    for (let position = 40; position < 48; position += 1) await lines.at(live, position);
    expect(await lines.at(live, 30)).not.toBe(one);
    expect(folded()).toBe(17);
  });

  it('[AS3] are refused, and not queued, where too many positions are asked for at once; later they are told', async () => {
    const { live, lines } = await counted();
    const asked = await Promise.allSettled(Array.from({ length: 30 }, (_, n) => lines.at(live, 20 + n)));
    const refused = asked.filter((one) => one.status === 'rejected');
    expect(refused.length).toBe(14);
    for (const { reason } of refused) expect(reason).toBeInstanceOf(TooManyThen);
    expect((await lines.at(live, 49)).fold.state.at).toBeGreaterThan(0);
  });
});
