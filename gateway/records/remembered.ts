import type { Instant } from '../../model/units/units.ts';

/** Kept at most, some 20 kB each at their largest; what was not asked for longest leaves first. */
const KEPT_MOST = 1000;

/**
 * What was worked out of records up to a moment, until one of them changes: the past is asked for again and again, and
 * late data may still amend it.
 */
export class Remembered {
  private readonly kept = new Map<string, { readonly to: Instant; readonly value: unknown }>();

  /** `make` works it out of records that began before `to`. */
  get<Value>(edition: number, key: string, to: Instant, make: () => Value): Value {
    const name = `${edition} ${key}`;
    const known = this.kept.get(name);
    if (known) {
      this.kept.delete(name);
      this.kept.set(name, known);
      return known.value as Value;
    }
    const value = make();
    this.kept.set(name, { to, value });
    if (this.kept.size > KEPT_MOST) this.kept.delete(this.kept.keys().next().value!);
    return value;
  }

  /** Another making serves. */
  clear(): void {
    this.kept.clear();
  }

  /** Records of a making changed from a moment on. */
  forget(edition: number, from: Instant): void {
    const start = `${edition} `;
    for (const [name, { to }] of this.kept) if (to > from && name.startsWith(start)) this.kept.delete(name);
  }
}
