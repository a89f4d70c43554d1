import type { Entry } from '../../model/entries/entries.ts';
import { SETTINGS } from '../../gateway/people/settings.ts';
import { epochMs, type Instant, seconds } from '../../model/units/units.ts';
import type { SheetView } from '../../model/view/sheetView.ts';
import { presentFacts, startMachine } from '../../simulator/machine/machine.ts';
import type { PlcFact } from '../../simulator/machine/plc.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import { type GatewaySite, openGatewaySite } from './gatewaySite.ts';

/** The web side of a gateway whose line ran Sachet 20 and is led by hand from there on. */
export interface SheetSite extends GatewaySite {
  /** Values that the PLC tells now. */
  readonly tell: (values: Readonly<Record<string, number | string | boolean>>) => Promise<void>;
  /** The line makes so many cartons at its rate, in line time that passes at once. */
  readonly run: (cartons: number) => Promise<void>;
  readonly sheet: () => SheetView | undefined;
  /** A sheet of the change to Sachet 48 is begun, by a program. */
  readonly begin: () => Promise<void>;
  /** Whoever is logged in under a number is so no more. */
  readonly endSessions: (number: string) => void;
  /** From now on desks and phones have to log in. */
  readonly close: () => void;
  /** What was entered, oldest first, as it is on the tape. */
  readonly entered: () => Promise<readonly (Entry & { readonly lineAt: Instant })[]>;
}

const at = (second: number) => (monday + seconds(second)) as Instant;

/** The line of the tests, told second by second. */
class Led {
  second = 0;
  facts: PlcFact[] = presentFacts(startMachine({ seed: 1, start: monday })).filter(
    (fact) => !('tag' in fact && fact.tag === 'Cartoner.Size'),
  );
  private readonly counted = new Map<string, number>();

  constructor() {
    for (const fact of this.facts)
      if ('tag' in fact && typeof fact.value === 'number') this.counted.set(fact.tag, fact.value);
    this.facts.push({ at: monday, link: true });
    this.tell('Cartoner.Size', 20).tell('Cartoner.State', 6).tell('Cartoner.Mode', 1);
  }

  tell(tag: string, value: number | string | boolean): this {
    this.facts.push({ at: at(this.second), tag, value });
    return this;
  }

  run(cartons: number): this {
    for (let made = 0; made < cartons; made += 10) {
      for (let beat = 0; beat < 3; beat += 1) {
        this.second += 4;
        this.count('Cartoner.Heartbeat', 1);
      }
      for (const tag of ['Cartoner.Cycles', 'Pick.Blanks', 'Discharge.Count', 'Discharge.Good'])
        this.count(tag, 10);
    }
    return this;
  }

  private count(tag: string, more: number): void {
    this.counted.set(tag, (this.counted.get(tag) ?? 0) + more);
    this.tell(tag, this.counted.get(tag)!);
  }
}

export async function openSheetSite(): Promise<SheetSite> {
  const bound = boundLine();
  const { line } = bound;
  const led = new Led().run(300);
  let since = performance.now();
  // the line's own seconds are those that pass, and those that a run took
  const now = () => epochMs((at(led.second) + Math.round((performance.now() - since) * 10_000)) as Instant);
  const site = await openGatewaySite({ bound, now });
  const { live, tape, people } = site;
  const offer = () => live.offer(changesOf(bound, led.facts.splice(0)));
  const catchUp = () => {
    led.second += (performance.now() - since) / 1000;
    since = performance.now();
  };
  await offer();
  const entrySignal = line.signals.findLastIndex(({ role }) => role === 'entry');
  return {
    ...site,
    tell: (values) => {
      catchUp();
      for (const [tag, value] of Object.entries(values)) led.tell(tag, value);
      return offer();
    },
    run: (cartons) => {
      catchUp();
      led.run(cartons);
      since = performance.now();
      return offer();
    },
    sheet: () => live.view().sheets.open,
    begin: async () => {
      const author = { kind: 'position', position: 'front' } as const;
      const body = { kind: 'sheetBegun', size: 'sachet-48', in: 'size' } as const;
      await live.enter({ id: 'begun', at: now(), author, ...body });
    },
    endSessions: (number) => people.administration.endSessions(number),
    close: () => people.administration.set({ ...SETTINGS, closed: true }),
    entered: async () => {
      const rows: (Entry & { readonly lineAt: Instant })[] = [];
      for await (const chunk of tape.read(line.id, 0, tape.end(line.id)))
        for (const { signal, value, at: lineAt } of chunk)
          if (signal === entrySignal) rows.push({ ...(JSON.parse(String(value)) as Entry), lineAt });
      return rows;
    },
  };
}
