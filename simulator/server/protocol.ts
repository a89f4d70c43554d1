import type { Writable } from 'node:stream';
import { GOOD } from '../../model/status/status.ts';
import { after, type Instant, minutes } from '../../model/units/units.ts';
import type { LedgerEntry } from '../ledger/entries.ts';
import { type Machine, runUntil, takeEntries, takeNotes } from '../machine/machine.ts';
import type { Noted } from '../machine/notebook.ts';
import type { PlcFact } from '../machine/plc.ts';

/** One fact of history as a line on standard output: `t` ticks, `n` tag, `v` value, `s` status where it is not good. */
export function historyLine(fact: PlcFact): string {
  if ('link' in fact) return `${JSON.stringify({ t: fact.at, link: fact.link })}\n`;
  const status = fact.status ?? GOOD;
  return `${JSON.stringify({ t: fact.at, n: fact.tag, v: fact.value, ...(status === GOOD ? {} : { s: status }) })}\n`;
}

/** What people wrote down as a line on standard output, under `said`. */
export function notedLine({ at, ...said }: Noted): string {
  return `${JSON.stringify({ t: at, said })}\n`;
}

/** The line that says where the server listens; nothing follows it. */
export function readyLine(endpoint: string): string {
  return `${JSON.stringify({ ready: endpoint })}\n`;
}

/** Writes, and waits while the reader is behind. A reader that has gone is no trouble: the process is about to stop. */
export async function send(out: Writable, text: string): Promise<void> {
  if (text === '' || out.destroyed || out.write(text)) return;
  await new Promise<void>((resolve) => {
    const done = () => {
      out.off('drain', done);
      out.off('close', done);
      resolve();
    };
    out.on('drain', done);
    out.on('close', done);
  });
}

/** Where history goes. */
export interface Past {
  readonly out: Writable;
  /** What happened before is not sent. */
  readonly from: Instant | undefined;
  readonly note: (entries: readonly LedgerEntry[]) => Promise<void>;
  readonly stopped: AbortSignal;
}

/** Runs the machine up to a moment as fast as the reader takes it, and sends every fact. */
export async function sendHistory(machine: Machine, until: Instant, past: Past): Promise<void> {
  for (let at = machine.plant.now; at < until && !past.stopped.aborted; ) {
    at = Math.min(until, after(at, minutes(5))) as Instant;
    const facts = runUntil(machine, at).filter((fact) => past.from === undefined || fact.at >= past.from);
    const notes = takeNotes(machine).filter((note) => past.from === undefined || note.at >= past.from);
    await send(past.out, inOrder(facts, notes));
    await past.note(takeEntries(machine));
  }
}

/** Both by their moments; at the same moment what the PLC told goes first. */
export function inOrder(facts: readonly PlcFact[], notes: readonly Noted[]): string {
  if (notes.length === 0) return facts.map(historyLine).join('');
  const lines = [
    ...facts.map((fact) => ({ at: fact.at, line: historyLine(fact) })),
    ...notes.map((note) => ({ at: note.at, line: notedLine(note) })),
  ];
  return lines
    .sort((a, b) => a.at - b.at)
    .map(({ line }) => line)
    .join('');
}
