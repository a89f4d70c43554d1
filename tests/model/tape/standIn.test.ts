import { expect, it } from 'vitest';
import type { Change, Signal } from '../../../model/signals/signals.ts';
import { BAD_DATA_LOST } from '../../../model/status/status.ts';
import { standIn } from '../../../model/tape/standIn.ts';
import type { Instant } from '../../../model/units/units.ts';

const signal = (index: number, role: Signal['role'], server: string): Signal => ({
  index,
  id: `${role}-${index}`,
  role,
  machine: 'cartoner',
  server,
  type: 'number',
});
const signals = [
  signal(0, 'state', 'a'),
  signal(1, 'link', 'a'),
  signal(2, 'goodCount', 'b'),
  signal(3, 'link', 'b'),
  signal(4, 'entry', ''),
];
const at = (moment: number) => moment as Instant;
const told = (index: number, value: Change['value']): Change => ({
  signal: index,
  at: at(150),
  received: at(160),
  status: 0,
  value,
});
const row = ({ signal: index, at: moment, status, value }: Change) => [index, moment, status, value];
const unread = { from: at(100), to: at(200), received: at(210) };

it('[TP5] it is as if no server had been heard, and then every tag had been read', () => {
  const changes = standIn(
    signals,
    { ...unread, last: [told(0, 6), told(2, 77), told(1, true)] },
    { begins: true, ends: true },
  );
  expect(changes.map(row)).toEqual([
    [1, 100, 0, false],
    [3, 100, 0, false],
    [0, 200, 0, 6],
    [1, 200, 0, true],
    [2, 200, 0, 77],
    [3, 200, 0, true],
  ]);
  expect(new Set(changes.map(({ received }) => received))).toEqual(new Set([210]));
});

it('[TP5] what nobody knows is unknown, and a server that was not heard at its end is not heard after it', () => {
  const changes = standIn(signals, { ...unread, last: [told(3, false)] }, { begins: true, ends: true });
  expect(changes.map(row)).toEqual([
    [1, 100, 0, false],
    [3, 100, 0, false],
    [0, 200, BAD_DATA_LOST, null],
    [1, 200, 0, true],
    [2, 200, BAD_DATA_LOST, null],
  ]);
});

it('[TP5] whoever stops within it, or begins within it, learns no more than is known there', () => {
  const of = (begins: boolean, ends: boolean) =>
    standIn(signals, { ...unread, last: [] }, { begins, ends }).map(row);
  expect(of(true, false)).toEqual([
    [1, 100, 0, false],
    [3, 100, 0, false],
  ]);
  expect(of(false, false)).toEqual([]);
  expect(of(false, true)).toEqual(of(true, true));
});
