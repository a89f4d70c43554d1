import type { Ground } from './people.ts';

const DAY_MS = 86_400_000;

/**
 * What is kept of people for a limited time: log-ins that are over go, and where somebody's access ended so many days ago, the
 * name, what the secrets were checked against, the browsers and the wrong guesses. The number stays, since it stands on tapes.
 * Answers the numbers that lost something.
 */
export function forgetEnded(ground: Ground): readonly string[] {
  const { persons, sessions, kept, whole, alone, now } = ground;
  const ended = whole(() => {
    sessions.dropOver(now());
    const { namesKeptDays } = kept.settings();
    if (namesKeptDays === 0) return [];
    const before = now() - namesKeptDays * DAY_MS;
    return persons
      .all()
      .filter(({ number, disabled }) => disabled !== null && disabled <= before && hasAny(ground, number));
  });
  for (const { number } of ended) {
    whole(() => {
      sessions.endAll(number);
      persons.dropSecrets(number);
      ground.subscriptions.dropAll(number);
      for (const kind of KINDS) ground.guesses.release({ kind, who: number, known: true });
    });
    // clearing the file of a name cannot stand within another change
    alone(() => persons.setName(number, undefined));
  }
  return ended.map(({ number }) => number);
}

const KINDS = ['password', 'code'] as const;

function hasAny({ persons, subscriptions }: Ground, number: string): boolean {
  return (
    persons.name(number) !== undefined ||
    KINDS.some((kind) => persons.secret(number, kind) !== undefined) ||
    subscriptions.rows(number).length > 0
  );
}
