interface Follower {
  told: number;
  readonly tell: (position: number) => void;
}

/**
 * Those who follow one line's end. They are told after the present call has returned, the newest position once
 * however many came together: nobody can slow an append down or make it fail.
 */
export class Followers {
  private readonly followers = new Set<Follower>();
  private end: number;
  private waking = false;

  constructor(end: number) {
    this.end = end;
  }

  add(after: number, tell: (position: number) => void): () => void {
    const follower = { told: after, tell };
    this.followers.add(follower);
    this.wake();
    return () => this.followers.delete(follower);
  }

  moved(end: number): void {
    this.end = end;
    this.wake();
  }

  clear(): void {
    this.followers.clear();
  }

  private wake(): void {
    if (this.waking || this.followers.size === 0) return;
    this.waking = true;
    queueMicrotask(() => {
      this.waking = false;
      for (const follower of [...this.followers]) {
        if (follower.told >= this.end || !this.followers.has(follower)) continue;
        follower.told = this.end;
        follower.tell(this.end);
      }
    });
  }
}
