import type { Instant } from '../../model/units/units.ts';

/** Kept at most, some 20 kB each at their largest; what was not asked for longest leaves first. */
const KEPT_MOST = 1000;
/** The same of what was so at positions of the tape. */
const THEN_MOST = 500;

/** What it stands on: records that began before `to`. */
interface Stands {
  readonly key: string;
  readonly to: Instant;
}

/**
 * What was worked out of records up to a moment, until one of them changes: the past is asked for again and again, and
 * late data may still amend it. What was so at a position of the tape is kept apart, and takes no room from what is known now.
 */
export class Remembered {
  private readonly standing = new Map<string, { readonly to: Instant; readonly value: unknown }>();
  private readonly stood = new Map<string, { readonly to: Instant; readonly value: unknown }>();

  /** `make` works it out of records that began before `to`. */
  get<Value>(edition: number, key: string, to: Instant, make: () => Value): Value {
    return once(this.standing, KEPT_MOST, { key: `${edition} ${key}`, to }, make);
  }

  /** The same of records as they were at a position. What stands on no record is the same at every one. */
  getStood<Value>(edition: number, position: number, { key, to }: Stands, make: () => Value): Value {
    if (to <= 0) return this.get(edition, key, to, make);
    return once(this.stood, THEN_MOST, { key: `${edition} ${position} ${key}`, to }, make);
  }

  /** Another making serves. */
  clear(): void {
    this.standing.clear();
    this.stood.clear();
  }

  /** Records of a making changed from a moment on. At positions before the newest they did not, but few ask for them meanwhile. */
  forget(edition: number, from: Instant): void {
    const start = `${edition} `;
    for (const kept of [this.standing, this.stood])
      for (const [name, { to }] of kept) if (to > from && name.startsWith(start)) kept.delete(name);
  }
}

function once<Value>(
  kept: Map<string, { readonly to: Instant; readonly value: unknown }>,
  most: number,
  { key, to }: Stands,
  make: () => Value,
): Value {
  const known = kept.get(key);
  if (known) {
    kept.delete(key);
    kept.set(key, known);
    return known.value as Value;
  }
  const value = make();
  kept.set(key, { to, value });
  if (kept.size > most) kept.delete(kept.keys().next().value!);
  return value;
}
