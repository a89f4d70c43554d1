import type { Line } from '../../model/line/line.ts';
import { byLineTime, type Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import { chance, stream } from '../../simulator/machine/random.ts';

/** What may be wrong with a line's file, or with what its PLC tells. */
export interface Trouble {
  /** The line file does not name the stations that a reason may come from. */
  readonly unnamed?: boolean;
  /** Every station but the last lies so many pockets nearer to the check than the file says. */
  readonly pocketsOff?: number;
  /** No counter of cycles is bound. */
  readonly uncounted?: boolean;
  /** Values are looked at so seldom only. */
  readonly sampledMs?: number;
  /** This station's sensor tells of a near miss in six of ten cycles, whatever becomes of the cartons. */
  readonly chatters?: string;
}

const CHATTERS = 0.6;

export function troubled(line: Line, { unnamed, pocketsOff = 0, uncounted }: Trouble): Line {
  return {
    ...line,
    rejects: unnamed ? line.rejects.map(({ from: _from, ...reason }) => reason) : line.rejects,
    stations: line.stations.map((station) => {
      const { pocketsToDischarge: pockets } = station;
      return pockets === 0 ? station : { ...station, pocketsToDischarge: pockets + pocketsOff };
    }),
    // a role that nothing is made of
    signals: uncounted
      ? line.signals.map((signal) =>
          signal.role === 'cycleCount' ? { ...signal, role: 'programVersion' } : signal,
        )
      : line.signals,
  };
}

/** Makes what is told of what the PLC does: one after another, as hours go by. */
export class Telling {
  private readonly line: Line;
  private readonly trouble: Trouble;
  private readonly draw: ReturnType<typeof stream>;
  private readonly last = new Map<number, Change['value']>();
  private more = 0;

  constructor(line: Line, trouble: Trouble, seed: number) {
    this.line = line;
    this.trouble = trouble;
    this.draw = stream(seed, 'chatter');
  }

  of(changes: readonly Change[]): readonly Change[] {
    const { chatters, sampledMs } = this.trouble;
    const told = chatters === undefined ? changes : this.chattering(changes, chatters);
    return sampledMs === undefined ? told : this.sampled(told, sampledMs * 10_000);
  }

  private chattering(changes: readonly Change[], station: string): readonly Change[] {
    const { signals } = this.line;
    const cycles = signals.findIndex(({ role }) => role === 'cycleCount');
    const sensor = signals.find(({ role, of }) => role === 'nearMissCount' && of === station)!;
    let own = Number(this.last.get(sensor.index) ?? 0);
    const told = changes.flatMap((change): Change[] => {
      if (change.signal === sensor.index) own = Number(change.value);
      const counted = { ...change, signal: sensor.index, value: (own + this.more) % sensor.wraps! };
      if (change.signal === sensor.index) return [{ ...counted, value: (own + this.more) % sensor.wraps! }];
      if (change.signal !== cycles || !chance(this.draw, CHATTERS)) return [change];
      this.more += 1;
      return [change, { ...counted, value: (own + this.more) % sensor.wraps! }];
    });
    this.last.set(sensor.index, own);
    return told.sort(byLineTime);
  }

  /** The last value of each signal at every look; what did not change is not told again. */
  private sampled(changes: readonly Change[], every: number): readonly Change[] {
    const looks = new Map<string, Change>();
    for (const change of changes) {
      const at = (Math.ceil(change.at / every) * every) as Instant;
      looks.set(`${at} ${change.signal}`, { ...change, at, received: at });
    }
    const told = [...looks.values()].sort(byLineTime);
    return told.filter(({ signal, value }) => {
      const before = this.last.get(signal);
      this.last.set(signal, value);
      return before !== value;
    });
  }
}
