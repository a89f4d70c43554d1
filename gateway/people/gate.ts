import type { IncomingHttpHeaders } from 'node:http';
import {
  ACT_OF_ENTRY,
  type Act,
  ACTS,
  actsOf,
  bearsNumber,
  mayDo,
  type Place,
  type Plant,
} from '../../model/access/access.ts';
import type { Entry, PersonEntryKind } from '../../model/entries/entries.ts';
import { assert } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { tokenOf } from './cookie.ts';
import type { People } from './people.ts';
import { notAllowed, notTrue } from './refusals.ts';
import type { Asker } from './sessions.ts';

const words = wordsIn('en').people;
const NOBODY: Plant = { people: false, closed: false };

/** Asks the table of access, for what comes in by the API and by sockets alike. */
export interface Gate {
  /** Who is logged in where a request comes from. */
  asker(headers: IncomingHttpHeaders): Asker | undefined;
  plant(): Plant;
  /** What may be done from there. */
  may(headers: IncomingHttpHeaders): readonly Act[];
  /** Refuses with words what may not be done. `number`: under whose number it is to stand. */
  allow(act: Act, headers: IncomingHttpHeaders, number?: string): void;
  /** The entry as it goes onto the tape, under who is logged in; refused with words where it may not be made. */
  entryBy(entry: Entry, headers: IncomingHttpHeaders): Entry;
}

/** Without people nobody can log in, and nothing needs it. */
export function createGate(people: People | undefined): Gate {
  const asker = (headers: IncomingHttpHeaders) => {
    const token = people && tokenOf(headers);
    return token === undefined ? undefined : people?.asker(token);
  };
  const plant = () => people?.plant() ?? NOBODY;
  return {
    asker,
    plant,
    may: (headers) => {
      const who = asker(headers);
      const here = plant();
      return ACTS.filter((act) =>
        mayDo(act, { place: who?.place ?? 'screen', roles: who?.roles ?? [] }, here),
      );
    },
    allow: (act, headers, number) => {
      const who = asker(headers);
      refuseUnlessMay(act, who, { place: 'screen', plant: plant() });
      refuseOther(who, number);
      // a page that is left open asks by itself again and again
      if (act !== 'look') used(people, headers);
    },
    entryBy: (entry, headers) => {
      const made = entryOf(entry, asker(headers), plant());
      used(people, headers);
      return made;
    },
  };
}

function entryOf(entry: Entry, who: Asker | undefined, plant: Plant): Entry {
  const { author } = entry;
  assert(isOfPerson(entry), 'what the gateway writes itself was sent as an entry');
  const acts = actsOf(entry);
  // a page may still think that somebody is logged in: what was meant to bear a number is not recorded without
  if (author.kind === 'person' && author.number !== who?.number) throw notTrue(words.ended(author.number));
  const place: Place = author.kind === 'position' ? 'panel' : 'screen';
  for (const act of acts) refuseUnlessMay(act, who, { place, plant });
  // the position is the author of what it may enter by itself, also where somebody forgot to log out
  if (!who || who.provisional || (place === 'panel' && !acts.some(bearsNumber))) return entry;
  refuseOther(who, numberIn(entry.kind === 'correction' ? (entry.body ?? {}) : entry));
  return { ...entry, author: { kind: 'person', number: who.number } };
}

/** Under whose number it says that something was done. */
function numberIn(said: { readonly person?: string } | object): string | undefined {
  return 'person' in said ? said.person : undefined;
}

function isOfPerson(entry: Entry): entry is Extract<Entry, { readonly kind: PersonEntryKind }> {
  return entry.kind in ACT_OF_ENTRY;
}

function refuseUnlessMay(
  act: Act,
  who: Asker | undefined,
  { place, plant }: { readonly place: Place; readonly plant: Plant },
): void {
  if (mayDo(act, { place, roles: who?.roles ?? [] }, plant)) return;
  if (!who) throw notAllowed(words.needsLogIn(act));
  throw notAllowed(who.provisional ? words.chooseFirst : words.notYours(act));
}

/** What stands under a number stands under one's own. */
function refuseOther(who: Asker | undefined, number: string | undefined): void {
  if (who && !who.provisional && number !== undefined && number !== who.number)
    throw notAllowed(words.otherNumber(who.number, number));
}

function used(people: People | undefined, headers: IncomingHttpHeaders): void {
  const token = people && tokenOf(headers);
  if (token !== undefined) people?.use(token);
}
