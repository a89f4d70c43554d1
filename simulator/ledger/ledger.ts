import type {
  CartonEntry,
  ChangeoverEntry,
  CrushedEntry,
  DarkEntry,
  GuardEntry,
  LedgerEntry,
  MissedPickEntry,
  PauseEntry,
  PressEntry,
  StartEntry,
  StopEntry,
  TargetEntry,
} from './entries.ts';

/** The truth of one run, by kind, each list in time order. */
export interface Ledger {
  readonly start: StartEntry;
  readonly cartons: readonly CartonEntry[];
  readonly missed: readonly MissedPickEntry[];
  readonly crushed: readonly CrushedEntry[];
  readonly stops: readonly StopEntry[];
  readonly presses: readonly PressEntry[];
  readonly changeovers: readonly ChangeoverEntry[];
  readonly pauses: readonly PauseEntry[];
  readonly targets: readonly TargetEntry[];
  readonly guards: readonly GuardEntry[];
  readonly darks: readonly DarkEntry[];
}

/** Sorts entries into lists. They may come in any order. */
export function ledgerOf(entries: readonly LedgerEntry[]): Ledger {
  const only = <Kind extends LedgerEntry['kind']>(kind: Kind) =>
    entries
      .filter((entry): entry is Extract<LedgerEntry, { kind: Kind }> => entry.kind === kind)
      .sort((a, b) => momentOf(a) - momentOf(b));
  const start = only('start')[0];
  if (!start) throw new Error('Mistake in the simulator: a ledger without a start');
  return {
    start,
    cartons: only('carton'),
    missed: only('missed'),
    crushed: only('crushed'),
    stops: only('stop'),
    presses: only('press'),
    changeovers: only('changeover'),
    pauses: only('pause'),
    targets: only('target'),
    guards: only('guard'),
    darks: only('dark'),
  };
}

/** When an entry happened, or began. */
export function momentOf(entry: LedgerEntry): number {
  switch (entry.kind) {
    case 'stop':
    case 'changeover':
    case 'pause':
      return entry.begin;
    case 'press':
      return entry.pressed;
    case 'guard':
      return entry.opened;
    case 'dark':
      return entry.from;
    case 'start':
    case 'carton':
    case 'missed':
    case 'crushed':
    case 'target':
    case 'adjusted':
    case 'lot':
      return entry.at;
  }
}

/** One entry as a line of the ledger file. */
export function ledgerLine(entry: LedgerEntry): string {
  return `${JSON.stringify(entry)}\n`;
}

/** Reads a ledger file back. */
export function readLedger(text: string): LedgerEntry[] {
  return text
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as LedgerEntry);
}
