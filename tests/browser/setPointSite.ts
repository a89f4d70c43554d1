import { epochMs, type Instant, seconds } from '../../model/units/units.ts';
import { presentFacts, startMachine } from '../../simulator/machine/machine.ts';
import type { PlcFact } from '../../simulator/machine/plc.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import { type GatewaySite, openGatewaySite } from './gatewaySite.ts';

/** Where the bottom closing guide stood in each run of Sachet 48: the book says 31.5, and 33.0 is best. */
const STOOD = [31.5, 33, 32, 34, 33.5, 31.5, 33, 34.5, 32.5, 33, 35, 34, 32, 33.5, 33, 32.5] as const;
const BEST = 33;
const GUIDE = 'BottomMajor.ClosingGuide';
const CODES = { sachet20: 20, sachet48: 48 } as const;

/** What the PLC told of them: rejects rise with the square of how far the guide stands from its best. */
function told(): { readonly facts: readonly PlcFact[]; readonly second: number } {
  const facts: PlcFact[] = [...presentFacts(startMachine({ seed: 1, start: monday }))];
  const counted = new Map<string, number>();
  for (const fact of facts)
    if ('tag' in fact && typeof fact.value === 'number') counted.set(fact.tag, fact.value);
  let second = 0;
  const tell = (tag: string, value: number | string) => facts.push({ at: at(second), tag, value });
  const count = (tag: string, more: number) => {
    if (more === 0) return;
    counted.set(tag, (counted.get(tag) ?? 0) + more);
    tell(tag, counted.get(tag)!);
  };
  const pass = (spent: number) => {
    for (let left = spent; left > 0; left -= 4) {
      second += Math.min(4, left);
      count('Cartoner.Heartbeat', 1);
    }
  };
  /** Spread evenly, so that each minute has its part. */
  const run = (cartons: number, rejects: number) => {
    for (let made = 0; made < cartons; made += 20) {
      pass(24);
      const due = (to: number) => Math.floor((rejects * to) / cartons);
      for (const tag of ['Cartoner.Cycles', 'Pick.Blanks', 'Discharge.Count', 'BottomMajor.Count'])
        count(tag, 20);
      const bad = due(made + 20) - due(made);
      count('Discharge.RejectBottomOpen', bad);
      count('Discharge.Good', 20 - bad);
    }
  };
  facts.push({ at: monday, link: true });
  tell('Cartoner.Size', CODES.sachet20);
  tell('Cartoner.State', 6);
  tell('Cartoner.Mode', 1);
  for (const [place, guide] of STOOD.entries()) {
    tell(GUIDE, 26);
    run(60, 0);
    tell(GUIDE, guide);
    pass(30);
    tell('Cartoner.Size', CODES.sachet48);
    tell('Magazine.BoardLot', `B-${place >> 2}`);
    run(2400, 5 + Math.round(14 * (guide - BEST) ** 2) + (place % 3));
    tell('Cartoner.Size', CODES.sachet20);
  }
  tell(GUIDE, 31.5);
  pass(30);
  tell('Cartoner.Size', CODES.sachet48);
  run(400, 6);
  return { facts, second };
}

function at(second: number): Instant {
  return (monday + seconds(second)) as Instant;
}

/** The web side of a gateway whose line ran Sachet 48 in sixteen runs and runs it now. */
export async function openSetPointSite(): Promise<GatewaySite> {
  const bound = boundLine();
  const { facts, second } = told();
  const opened = performance.now();
  // time goes on, as what is asked of the past ends before now
  const now = () => epochMs(at(second + (performance.now() - opened) / 1000));
  const site = await openGatewaySite({ bound, now });
  await site.live.offer(changesOf(bound, facts));
  return site;
}
