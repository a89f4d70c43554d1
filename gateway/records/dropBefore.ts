import type { Database } from 'better-sqlite3';
import { RECORD_KINDS } from '../../model/records/records.ts';
import type { Instant } from '../../model/units/units.ts';
import { statement } from '../tape/database.ts';

/**
 * Takes away, of a making's records, what was over before a moment, but for the newest of each kind: it may tell what holds
 * since then. What took its place meanwhile goes with it.
 */
export function dropBefore(database: Database, edition: number, from: Instant): void {
  const newest = statement<[number, string, number], number | null>(
    database,
    'SELECT max(at) FROM record WHERE edition = ? AND kind = ? AND at < ?',
  ).pluck();
  const drops = ['record', 'replaced'].map((table) =>
    statement<[number, string, number, number]>(
      database,
      `DELETE FROM ${table} WHERE edition = ? AND kind = ? AND at < ? AND (until IS NULL OR until <= ?)`,
    ),
  );
  const all = database.transaction(() => {
    for (const kind of RECORD_KINDS) {
      const last = newest.get(edition, kind, from) ?? undefined;
      if (last !== undefined) for (const drop of drops) drop.run(edition, kind, last, from);
    }
  });
  all.immediate();
}
