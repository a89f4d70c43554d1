import type { Line } from '../../model/line/line.ts';
import { lineFrom } from '../../model/line/lineText.ts';
import type { Piece, StateBefore, TapeStretch } from '../../model/replay/stretch.ts';
import type { Aligned, ReplayTape } from '../../model/replay/replay.ts';
import type { Kept } from '../../model/replay/tapeRead.ts';
import type { Change } from '../../model/signals/signals.ts';
import { decode } from '../../model/tape/codec.ts';
import { damagedBlob, isDamage } from '../../model/tape/damage.ts';
import { type EpochMs, type Instant, instantFromMs } from '../../model/units/units.ts';

/** Pieces that are held as they were decoded; the others are held packed, and decoded again. */
const DECODED_MOST = 6;
/** Pieces asked for by one question, as the gateway answers them at most; and how far ahead the next ones are asked for. */
const TOGETHER = 16;
const AHEAD = 8;

/** How the gateway is asked; a browser's `fetch`, or a test's. */
export type Fetch = (path: string, signal: AbortSignal) => Promise<Response>;

/** A stretch of a line's tape, fetched from the gateway piece by piece as it is read, and kept. */
export class FetchedTape implements ReplayTape {
  readonly line: Line;
  readonly stretch: TapeStretch;
  private readonly base: string;
  private readonly ask: Fetch;
  private readonly ends: AbortSignal;
  private readonly pieces: Piece[];
  private readonly packed = new Map<number, Promise<Uint8Array>>();
  private readonly decoded = new Map<number, readonly (Change | undefined)[]>();
  private readonly numbers: ReadonlyMap<number, number>;
  private readonly isSame: boolean;

  private constructor(stretch: TapeStretch, base: string, ask: Fetch, ends: AbortSignal) {
    this.stretch = stretch;
    this.base = base;
    this.ask = ask;
    this.ends = ends;
    this.line = lineFrom(stretch.line);
    this.pieces = [...stretch.pieces];
    this.numbers = new Map(stretch.numbers);
    this.isSame = stretch.numbers.every(([number, place]) => number === place);
  }

  /** Rejects with a `Refused` where the gateway refuses, and otherwise where it cannot be asked. */
  static async open(
    line: string,
    from: EpochMs,
    to: EpochMs,
    ask: Fetch,
    ends: AbortSignal,
  ): Promise<FetchedTape> {
    const base = `/api/lines/${encodeURIComponent(line)}/tape`;
    const response = await asked(ask, `${base}?from=${from}&to=${to}`, ends);
    return new FetchedTape((await response.json()) as TapeStretch, base, ask, ends);
  }

  /** Line time at which the tape begins, where it is known. */
  get oldest(): Instant | undefined {
    return this.stretch.first === null ? undefined : instantFromMs(this.stretch.first);
  }

  begin(): number {
    return this.stretch.begin;
  }

  end(): number {
    return this.stretch.end;
  }

  async *aligned(from: number, to: number): AsyncGenerator<Aligned> {
    let position = Math.max(from, this.stretch.begin);
    const until = Math.min(to, this.stretch.end);
    while (position < until) {
      const piece = await this.pieceAt(position, until);
      if (!piece) return;
      this.fetchAhead(piece, until);
      const changes = await this.changesOf(piece);
      const next = Math.min(until, piece.start + piece.count);
      // the open end may hold more by now than was told of it
      const whole = piece.sealed && position === piece.start && next === piece.start + piece.count;
      yield {
        from: position,
        next,
        changes: whole ? changes : changes.slice(position - piece.start, next - piece.start),
      };
      position = next;
    }
  }

  async *read(_line: string, from: number, to: number): AsyncGenerator<readonly Change[]> {
    for await (const chunk of this.aligned(from, to)) {
      const changes = chunk.changes.filter((change) => change !== undefined);
      if (changes.length > 0) yield changes;
    }
  }

  async nearest(_line: string, position: number): Promise<Kept | undefined> {
    const response = await asked(this.ask, `${this.base}/states/${position}`, this.ends);
    const { position: at, body } = (await response.json()) as StateBefore;
    return body === null ? undefined : { position: at, body };
  }

  async laterThan(from: number, at: Instant): Promise<readonly Change[]> {
    const found: Change[] = [];
    const isLink = this.line.signals.map(({ role }) => role === 'link');
    const last = this.pieces.at(-1);
    const rest = last && last.start + last.count > from ? [last] : [];
    for (const piece of [...rest, ...this.stretch.later]) {
      const changes = await this.changesOf(piece);
      for (const change of changes.slice(Math.max(0, from - piece.start)))
        if (change && (change.at <= at || isLink[change.signal])) found.push(change);
    }
    return found;
  }

  private async pieceAt(position: number, until: number): Promise<Piece | undefined> {
    const holds = ({ start, count }: Piece) => start <= position && position < start + count;
    const known = this.pieces.find(holds);
    if (known) return known;
    const response = await asked(
      this.ask,
      `${this.base}/pieces?from=${position}&to=${Math.min(until, position + 1)}`,
      this.ends,
    );
    const told = (await response.json()) as readonly Piece[];
    const starts = new Set(this.pieces.map(({ start }) => start));
    this.pieces.push(...told.filter(({ start }) => !starts.has(start)));
    this.pieces.sort((a, b) => a.start - b.start);
    return this.pieces.find(holds);
  }

  /** The next ones are asked for while this one is worked on. */
  private fetchAhead(piece: Piece, until: number): void {
    const next = this.pieces[this.pieces.indexOf(piece) + AHEAD];
    if (next && next.start < until) this.bytesOf(next).catch(() => {}); // told to whoever reads it
  }

  /** Together with those that follow it and are not here yet: one question for many pieces. */
  private bytesOf(piece: Piece): Promise<Uint8Array> {
    const known = this.packed.get(piece.start);
    if (known) return known;
    const place = this.pieces.indexOf(piece);
    const group = [piece];
    for (const next of place < 0 ? [] : this.pieces.slice(place + 1, place + TOGETHER)) {
      const last = group.at(-1)!;
      if (next.start !== last.start + last.count || this.packed.has(next.start)) break;
      group.push(next);
    }
    const end = group.at(-1)!.start + group.at(-1)!.count;
    const path = `${this.base}/bytes?from=${piece.start}&to=${end}`;
    const parts = asked(this.ask, path, this.ends).then(partsOf);
    for (const [nth, { start }] of group.entries()) {
      const bytes = parts.then((all) => inflated(all[nth]));
      this.packed.set(start, bytes);
      // what did not come is asked for again by whoever wants it
      bytes.catch((error) => !isDamage(error) && this.packed.delete(start));
    }
    return this.packed.get(piece.start)!;
  }

  private async changesOf(piece: Piece): Promise<readonly (Change | undefined)[]> {
    const known = this.decoded.get(piece.start);
    if (known) {
      // the one used last is the last to go
      this.decoded.delete(piece.start);
      this.decoded.set(piece.start, known);
      return known;
    }
    const changes = this.placed(await this.opened(piece));
    this.decoded.set(piece.start, changes);
    const [oldest] = this.decoded.keys();
    if (this.decoded.size > DECODED_MOST && oldest !== undefined) this.decoded.delete(oldest);
    return changes;
  }

  /** What is damaged is folded as time that nobody saw, as the gateway itself does. */
  private async opened(piece: Piece): Promise<readonly Change[]> {
    try {
      return decode(await this.bytesOf(piece));
    } catch (error) {
      if (!isDamage(error)) throw error;
      const path = `${this.base}/pieces/${piece.start}/stand-in`;
      const response = await asked(this.ask, path, this.ends);
      return decode(await inflated(new Uint8Array(await response.arrayBuffer())));
    }
  }

  /** By the line's own places; undefined where the line has the signal no longer. */
  private placed(changes: readonly Change[]): readonly (Change | undefined)[] {
    if (this.isSame) return changes;
    return changes.map((change) => {
      const signal = this.numbers.get(change.signal);
      return signal === undefined ? undefined : { ...change, signal };
    });
  }
}

/** The gateway answered, and would not. */
export class Refused extends Error {
  readonly why: string | undefined;
  readonly mend: string | undefined;

  constructor(trouble: string, why: string | undefined, mend: string | undefined) {
    super(trouble);
    this.why = why;
    this.mend = mend;
  }
}

async function asked(ask: Fetch, path: string, ends: AbortSignal): Promise<Response> {
  const response = await ask(path, ends);
  if (response.ok) return response;
  const told = (await response.json().catch(() => ({}))) as Partial<
    Record<'trouble' | 'why' | 'mend', string>
  >;
  throw new Refused(told.trouble ?? String(response.status), told.why, told.mend);
}

/** Pieces that came one after another, each led by its length. */
async function partsOf(response: Response): Promise<readonly Uint8Array<ArrayBuffer>[]> {
  const bytes = await response.arrayBuffer();
  const view = new DataView(bytes);
  const parts: Uint8Array<ArrayBuffer>[] = [];
  for (let at = 0; at + 4 <= bytes.byteLength; ) {
    const length = view.getUint32(at, true);
    parts.push(new Uint8Array(bytes, at + 4, Math.min(length, bytes.byteLength - at - 4)));
    at += 4 + length;
  }
  return parts;
}

/** What came and does not open is damaged. */
async function inflated(bytes: Uint8Array<ArrayBuffer> | undefined): Promise<Uint8Array> {
  if (!bytes) throw damagedBlob();
  try {
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate'));
    return new Uint8Array(await new Response(stream).arrayBuffer());
  } catch {
    throw damagedBlob();
  }
}
