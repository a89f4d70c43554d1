const KEPT = 9;
/** Where the values' stamps and the server's own clock differ by more, the values' stamps count. Milliseconds. */
export const AGREE_MS = 2000;

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

  /** Our own clock was put forward by so much, or back. */
  ownSet(by: number): void {
    for (const [place, stamp] of this.stamps.entries()) this.stamps[place] = stamp - by;
    if (this.read !== undefined) this.read -= by;
  }

  /** A server that comes back may have another time. */
  forget(): void {
    this.stamps.length = 0;
    this.read = undefined;
  }

  /** Undefined before anything was heard. */
  get ms(): number | undefined {
    return this.read === undefined ? this.middle : this.read + this.apart;
  }

  /** How far the stamps are ahead of the server's clock as it was read; 0 where they agree. */
  get apart(): number {
    const { middle, read } = this;
    if (middle === undefined || read === undefined) return 0;
    return Math.abs(middle - read) <= AGREE_MS ? 0 : middle - read;
  }

  private get middle(): number | undefined {
    return this.stamps.length > 0 ? median(this.stamps) : undefined;
  }
}

function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}
