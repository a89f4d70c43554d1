const HALF = 2 ** 31;

/**
 * Watches the numbers of a subscription's messages, which the client library does not. Each message with data carries
 * the number after the one before; a keep-alive carries the number that the next one *will* have. After a cut, live
 * messages may come before the ones the server sends again, and some come twice.
 */
export class SequenceWatch {
  private life = -1;
  private next = 0;
  /** Numbers that came before one that is still missing. */
  private readonly ahead = new Set<number>();
  /** The next number according to the newest keep-alive. */
  private announced = 0;

  /** `life` counts the subscription's lives: a subscription made anew begins again. `twice`: this one has been seen. */
  note(life: number, number: number, keepAlive: boolean): 'new' | 'twice' {
    if (life !== this.life) this.begin(life, number);
    if (keepAlive) {
      if (isAfter(number, this.announced)) this.announced = number;
      return 'new';
    }
    if (isAfter(this.next, number) || this.ahead.has(number)) return 'twice';
    this.ahead.add(number);
    while (this.ahead.delete(this.next)) this.next = following(this.next);
    return 'new';
  }

  /** Up to this number nothing is missing. */
  get last(): number {
    return this.next - 1;
  }

  /** True while a message is missing. */
  get hole(): boolean {
    return this.ahead.size > 0 || isAfter(this.announced, this.next);
  }

  /** What is missing will not come any more: goes on from the newest number known. */
  giveUp(): void {
    for (const number of this.ahead) {
      if (!isAfter(this.next, number)) this.next = following(number);
    }
    if (isAfter(this.announced, this.next)) this.next = this.announced;
    this.ahead.clear();
  }

  private begin(life: number, number: number): void {
    this.life = life;
    this.next = number;
    this.announced = number;
    this.ahead.clear();
  }
}

/** Which of two numbers of one life was given first, also across the highest one; for sorting. */
export function byNumber(a: number, b: number): number {
  return (a - b) | 0;
}

/** Numbers run from 1 to 2³²−1 and begin again at 1 (OPC 10000-4). */
function following(number: number): number {
  return number >= 0xffffffff ? 1 : number + 1;
}

function isAfter(a: number, b: number): boolean {
  const ahead = (a - b) >>> 0;
  return ahead !== 0 && ahead < HALF;
}
