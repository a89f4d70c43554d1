import type { Recipient } from './recipients.ts';

/** By which ways people can be reached now, by their numbers: what the settings say of them does not make it so. */
export interface Reach {
  /** Whose access has ended. */
  readonly shutOff: readonly string[];
  /** Who is logged in at an open page that sounds. */
  readonly pages: readonly string[];
  /** Of whom a mail address is kept. */
  readonly mail: readonly string[];
  /** Who takes notices in a browser by push. */
  readonly push: readonly string[];
  /** Webhooks that there are, by name: they reach everybody. */
  readonly webhooks: readonly string[];
}

/** accessEnded: told of nothing. noWay: none of the ways leads to them. pageClosed: only a page would, and none is open. */
export type Unreached = 'accessEnded' | 'noWay' | 'pageClosed';

/** [NR2] Why somebody who is set to be told would not be; undefined for whom a way leads to. */
export function unreached({ person, ways }: Recipient, reach: Reach): Unreached | undefined {
  if (reach.shutOff.includes(person)) return 'accessEnded';
  const leading = ways.filter((way) => leadsTo(way, person, reach));
  if (leading.length === 0) return 'noWay';
  const isPageOnly = leading.every((way) => way === 'page');
  return isPageOnly && !reach.pages.includes(person) ? 'pageClosed' : undefined;
}

/** An open page always may: whether one is open is asked apart. */
function leadsTo(way: string, person: string, { mail, push, webhooks }: Reach): boolean {
  switch (way) {
    case 'page':
      return true;
    case 'mail':
      return mail.includes(person);
    case 'push':
      return push.includes(person);
    default:
      return webhooks.includes(way);
  }
}
