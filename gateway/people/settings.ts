import { randomBytes } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { statement } from '../tape/database.ts';

/** What an admin can set. */
export const settingsSchema = z.strictObject({
  /** Whether desks and programs have to log in for entries; panels never have to. */
  closed: z.boolean(),
  /** After so long without anything done a log-in ends: at a desk, and at a panel. */
  idleMinutes: z.number().int().min(1).max(1440),
  panelIdleMinutes: z.number().int().min(1).max(60),
  /** So long a log-in lasts at most. */
  hoursMost: z.number().int().min(1).max(168),
  /** So many days after a person's access ended the name and all else of the person goes, but the number; 0: it stays. */
  namesKeptDays: z.number().int().min(0).max(3650),
});
export type Settings = z.infer<typeof settingsSchema>;

/** A shift and its hand-over; at a panel the next one stands there soon. */
export const SETTINGS: Settings = {
  closed: false,
  idleMinutes: 30,
  panelIdleMinutes: 2,
  hoursMost: 10,
  namesKeptDays: 90,
};

/** What is set, by name. */
export class Kept {
  private readonly database: Database;

  constructor(database: Database) {
    this.database = database;
  }

  settings(): Settings {
    const read = settingsSchema.partial().safeParse(JSON.parse(this.get('settings') ?? '{}'));
    return { ...SETTINGS, ...(read.success ? read.data : {}) } as Settings;
  }

  set(settings: Settings): void {
    this.put('settings', JSON.stringify(settings));
  }

  /** Made once, so that what is hashed with it can be found again. */
  salt(): string {
    const kept = this.get('salt') ?? randomBytes(16).toString('base64url');
    this.put('salt', kept);
    return kept;
  }

  get(name: string): string | undefined {
    return statement<[string], string>(this.database, 'SELECT value FROM setting WHERE name = ?')
      .pluck()
      .get(name);
  }

  put(name: string, value: string): void {
    statement(this.database, 'INSERT OR REPLACE INTO setting (name, value) VALUES (?, ?)').run(name, value);
  }

  drop(name: string): void {
    statement(this.database, 'DELETE FROM setting WHERE name = ?').run(name);
  }
}
