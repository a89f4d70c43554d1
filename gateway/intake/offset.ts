const KEPT = 9;
/** Where the values' stamps and the server's own clock differ by more, the values' stamps count. Milliseconds. */
const AGREE_MS = 2000;

/**
 * How far a server's clock is ahead of ours, in milliseconds. Two witnesses: the server's clock when it is read, exact to
 * half the time the reading took, and the server's stamps on live values, late by up to a publishing interval. Where they
 * disagree the stamps count, because line time is made of stamps.
 */
export class ClockOffset {
  private readonly stamps: number[] = [];
  private read: number | undefined;

  /** The newest server stamp in a message of live values. Initial values do not count: their stamps may be hours old. */
  stamped(serverMs: number, received: number): void {
    this.stamps.push(serverMs - received);
    if (this.stamps.length > KEPT) this.stamps.shift();
  }

  /** The server's clock said `serverMs` somewhere between `asked` and `answered`. */
  clockRead(serverMs: number, asked: number, answered: number): void {
    this.read = serverMs - (asked + answered) / 2;
  }

  /** A server that comes back may have another time. */
  forget(): void {
    this.stamps.length = 0;
    this.read = undefined;
  }

  /** Undefined before anything was heard. */
  get ms(): number | undefined {
    const middle = this.stamps.length > 0 ? median(this.stamps) : undefined;
    if (this.read === undefined) return middle;
    return middle === undefined || Math.abs(middle - this.read) <= AGREE_MS ? this.read : middle;
  }
}

function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}
