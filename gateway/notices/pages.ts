/** Open pages that sound, and who is logged in at each: asked for each telling, as a log-in ends by itself. */
export class Pages {
  private readonly open = new Map<string, () => string | undefined>();

  /** A page says that it sounds, or does not any more. */
  sounds(page: string, who: () => string | undefined, on: boolean): void {
    if (on) this.open.set(page, who);
    else this.open.delete(page);
  }

  /** It was closed, or its connection was lost. */
  closed(page: string): void {
    this.open.delete(page);
  }

  /** Who would hear it on a page, by number. */
  people(): readonly string[] {
    return [...new Set([...this.open.values()].flatMap((who) => who() ?? []))];
  }

  /** Whether a person, by number, would hear it on a page. */
  isOpenFor(person: string): boolean {
    for (const who of this.open.values()) if (who() === person) return true;
    return false;
  }
}
