import { expect, it } from 'vitest';
import { killAgainAndAgain } from './kills.ts';

it('killed ten times, a gateway keeps what it acknowledged, resumes the fold of its tape, and counts nothing twice', async () => {
  const seed = Math.floor(Math.random() * 1e6);
  const { kills, counted, wrong } = await killAgainAndAgain(seed, 10);
  expect(wrong, `seed ${seed}`).toEqual([]);
  expect(kills).toBe(10);
  expect(counted, `seed ${seed}`).toBeGreaterThan(0);
}, 600_000);
