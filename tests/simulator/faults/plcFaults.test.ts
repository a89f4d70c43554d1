import { describe, expect, it } from 'vitest';
import {
  after,
  HOUR,
  type Instant,
  instantFromMs,
  MINUTE,
  SECOND,
  type Span,
} from '../../../model/units/units.ts';
import { readFaults } from '../../../simulator/faults/language.ts';
import { FaultedPlc, type ToldFact } from '../../../simulator/faults/plcFaults.ts';
import { tagsOf } from '../../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../../simulator/lines/variant.ts';
import { monday, runFor } from '../simulatedLine.ts';

const { told } = runFor(1, { seed: 5 });
const tags = tagsOf(standard);
const twins = new Map(devicesOf(standard).map(({ tag, twinTag }) => [tag, twinTag]));
const end = after(monday, HOUR as Span);

function faulted(text: string, chunks = 1): readonly ToldFact[] {
  const plc = new FaultedPlc(readFaults(text), monday, tags, twins);
  const all: ToldFact[] = [];
  for (let n = 1; n <= chunks; n += 1) {
    const [from, to] = [(n - 1) / chunks, n / chunks].map((share) => (monday + share * HOUR) as Instant);
    const some = told.filter(({ at }) => at >= from! && (at < to! || (n === chunks && at <= to!)));
    all.push(...plc.pass(some, n === chunks ? ((end + 1) as Instant) : to!));
  }
  return all;
}

const of = (facts: readonly ToldFact[], tag: string) =>
  facts.flatMap((fact) => ('tag' in fact && fact.tag === tag ? [fact] : []));
const minute = (n: number) => (monday + n * MINUTE) as Instant;

describe('a PLC with faults', () => {
  it('without any tells what the machine told, stamped with its time', () => {
    const plain = faulted('');
    expect(
      plain.map((fact) => ('tag' in fact ? [fact.at, fact.tag, fact.value] : [fact.at, fact.link])),
    ).toEqual(told.map((fact) => ('tag' in fact ? [fact.at, fact.tag, fact.value] : [fact.at, fact.link])));
    expect(plain.every((fact) => !('tag' in fact) || (fact.source === fact.at && fact.status === 0))).toBe(
      true,
    );
  });

  it('tells the same whatever chunks it is asked for', () => {
    const text = `0:05:00 value Discharge.Good bad for 2 min
      0:10:00 counter Discharge.Good reset
      0:20:00 program still for 3 min
      0:30:00 clock stepped by 1 h
      0:40:00 button Stop.MainPanel pressed for 30 ms`;
    expect(faulted(text, 7)).toEqual(faulted(text));
  });

  it('a counter reset goes on from 0, and loses nothing of what comes after', () => {
    const goods = of(faulted('0:10:00 counter Discharge.Good reset'), 'Discharge.Good');
    const at = goods.findIndex(({ value }) => value === 0);
    expect(goods[at]!.at).toBe(minute(10));
    const before = goods[at - 1]!.value as number;
    const made = of(faulted(''), 'Discharge.Good');
    const truth = (made.at(-1)!.value as number) - before;
    expect(goods.at(-1)!.value).toBe((truth + 2 ** 32) % 2 ** 32);
  });

  it('a counter near its end from the start on begins there, and rolls over with its fourth count', () => {
    const goods = of(faulted('0:00:00 counter Discharge.Good near its end', 3), 'Discharge.Good');
    expect(goods.slice(0, 5).map(({ value }) => value)).toEqual([
      2 ** 32 - 3,
      2 ** 32 - 2,
      2 ** 32 - 1,
      0,
      1,
    ]);
    expect(goods.length).toBe(of(faulted(''), 'Discharge.Good').length);
    const narrow = of(faulted('0:00:00 counter Pick.Missed 1 before its end'), 'Pick.Missed');
    expect(narrow.slice(0, 2).map(({ value }) => value)).toEqual([65_535, 0]);
  });

  it('a counter put near its end later steps up to it', () => {
    const goods = of(faulted('0:10:00 counter Discharge.Good 7 before its end'), 'Discharge.Good');
    expect(goods.find(({ at }) => at === minute(10))!.value).toBe(2 ** 32 - 7);
  });

  it('a tag that is late is told later, with its stamp from then, and in order though the lag changes', () => {
    const tag = 'Cartoner.SpeedActual';
    const plain = of(faulted(''), tag).filter(({ at }) => at < minute(59));
    const late = of(faulted(`0:00:00 tag ${tag} late by 20 s\n0:30:00 tag ${tag} late by 5 s`, 7), tag);
    expect(plain.length).toBeGreaterThan(100);
    expect(late.slice(0, plain.length).map(({ value }) => value)).toEqual(plain.map(({ value }) => value));
    for (const [place, { at }] of plain.entries()) {
      const told = late[place]!;
      const lag = told.at - at;
      expect(told.source).toBe(told.at);
      if (at < minute(30)) expect(lag).toBe(20 * SECOND);
      else expect([5 * SECOND, late[place - 1]!.at - at]).toContain(lag);
    }
  });

  it('a clock on local time is ahead by what the zone is, also across the hour that comes twice', () => {
    const night = instantFromMs(Date.parse('2026-10-25T00:30:00Z'));
    const plc = new FaultedPlc(readFaults('0:00:00 clock local'), night, tags, twins);
    const at = (minutes: number) => after(night, (minutes * MINUTE) as Span);
    const facts = [10, 29, 31, 50].map((n) => ({ at: at(n), tag: 'Cartoner.Heartbeat', value: n }));
    const heard = of(plc.pass(facts, at(60)), 'Cartoner.Heartbeat');
    expect(heard.map((fact) => (fact.source! - fact.at) / HOUR)).toEqual([2, 2, 1, 1]);
    expect(heard.every(({ source, server }) => source === server)).toBe(true);
    expect(plc.says(at(29))).toBe(after(at(29), (2 * HOUR) as Span));
  });

  it('a bad value comes once without a value, or with each value, and is good again afterwards', () => {
    const none = of(faulted('0:10:00 value Discharge.Good bad for 2 min'), 'Discharge.Good');
    const inside = (fact: { readonly at: Instant }) => fact.at >= minute(10) && fact.at < minute(12);
    expect(none.filter(inside)).toMatchObject([{ at: minute(10), value: null, status: 0x80050000 }]);
    expect(none.find(({ at }) => at === minute(12))).toMatchObject({ status: 0 });
    const each = of(faulted('0:10:00 value Discharge.Good bad with value for 2 min'), 'Discharge.Good');
    expect(each.filter(inside).length).toBeGreaterThan(20);
    expect(each.filter(inside).every(({ value, status }) => value !== null && status === 0x80050000)).toBe(
      true,
    );
  });

  it('a program that stands still tells nothing, and then how everything is', () => {
    const facts = faulted('0:10:00 program still for 3 min');
    expect(facts.filter(({ at }) => at >= minute(10) && at < minute(13))).toEqual([]);
    const back = facts.filter(({ at }) => at === minute(13));
    expect(back.some((fact) => 'tag' in fact && fact.tag === 'Discharge.Good')).toBe(true);
  });

  it('only the heartbeat may stand still', () => {
    const facts = faulted('0:10:00 heartbeat still for 3 min');
    const inside = facts.filter(({ at }) => at > minute(10) && at < minute(13));
    expect(of(inside, 'Cartoner.Heartbeat')).toEqual([]);
    expect(of(inside, 'Cartoner.Cycles').length).toBeGreaterThan(100);
  });

  it('a pulse of a stop device is counted by its twin', () => {
    const facts = faulted('0:10:00 button Stop.MainPanel pressed for 30 ms');
    const pulse = of(facts, 'Stop.MainPanel').filter(({ at }) => at >= minute(10) && at < minute(11));
    expect(pulse.map(({ at, value }) => [at - minute(10), value])).toEqual([
      [0, true],
      [0.03 * SECOND, false],
    ]);
    const counts = of(facts, 'Stop.MainPanelCount');
    const plain = of(faulted(''), 'Stop.MainPanelCount');
    expect(counts.length).toBe(plain.length + 1);
  });

  it('a counter set to another number goes on from there', () => {
    const goods = of(faulted('0:30:00 counter Discharge.Good set to 40'), 'Discharge.Good');
    const at = goods.findIndex((fact) => fact.at === minute(30));
    expect(goods.slice(at, at + 3).map(({ value }) => value)).toEqual([40, 41, 42]);
    expect(goods.length).toBe(of(faulted(''), 'Discharge.Good').length + 1);
  });

  it('a tag’s stamps may be off, and no other tag’s', () => {
    for (const fact of faulted('0:10:00 tag Cartoner.State skewed by -1500 ms')) {
      if (!('tag' in fact)) continue;
      const off = fact.tag === 'Cartoner.State' && fact.at >= minute(10) ? -1.5 * SECOND : 0;
      expect(fact.source).toBe(fact.at + off);
      expect(fact.server).toBe(fact.at);
    }
  });

  it('stamps may be missing, and the clock be stepped for good', () => {
    const facts = faulted('0:10:00 stamps missing for 1 min\n0:20:00 clock stepped by -1 h');
    for (const fact of facts) {
      if (!('tag' in fact)) continue;
      const missing = fact.at >= minute(10) && fact.at < minute(11);
      const ahead = fact.at >= minute(20) ? -HOUR : 0;
      expect(fact.source).toBe(missing ? undefined : fact.at + ahead);
    }
  });
});
