import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { CorrectableBody } from '../../model/entries/saidEntries.ts';

/** The part of an entry that is corrected in a line to type in: its number, or its words. */
export function textOf(body: CorrectableBody): string {
  switch (body.kind) {
    case 'reason':
      return body.words ?? body.reason;
    case 'cause':
    case 'note':
      return body.words;
    case 'changed': {
      const { changed, words } = body;
      if (changed.of === 'adjustment') return changed.to ?? '';
      return changed.of === 'other' ? words : changed.name;
    }
    case 'tested':
      return body.method;
    // its answers are chosen where the notice is; here its words are corrected
    case 'noticeClosed':
      return body.words ?? '';
    case 'takenOut':
    case 'handedOver':
      return String(body.cartons);
    case 'crew':
      return String(body.people);
    case 'target':
      return body.perMinute === null ? '' : String(body.perMinute);
    case 'reading':
      return String(body.value);
    case 'fitted':
      return body.name;
    // several numbers: one of them that is wrong is withdrawn with the rest, and read
    case 'asBook':
      return '';
  }
}

/** The same entry with that part as it was typed; undefined where it does not fit. */
export function correctedBody(body: CorrectableBody, typed: string): CorrectableBody | undefined {
  if (typed === '' || typed === textOf(body)) return undefined;
  switch (body.kind) {
    case 'reason':
      return { ...body, reason: 'other', words: typed };
    case 'cause':
    case 'note':
      return { ...body, words: typed };
    case 'changed': {
      const { changed } = body;
      if (changed.of === 'adjustment') return { ...body, changed: { ...changed, to: typed } };
      return changed.of === 'other'
        ? { ...body, words: typed }
        : { ...body, changed: { ...changed, name: typed } };
    }
    case 'tested':
      return { ...body, method: typed };
    case 'noticeClosed':
      return { ...body, words: typed };
    case 'takenOut':
    case 'handedOver': {
      const cartons = wholeOf(typed, body.kind === 'takenOut' ? ENTRY_MOST.takenOut : ENTRY_MOST.cartons);
      return cartons === undefined ? undefined : { ...body, cartons };
    }
    case 'crew': {
      const people = wholeOf(typed, ENTRY_MOST.people);
      return people === undefined ? undefined : { ...body, people };
    }
    case 'target': {
      const perMinute = tenthsOf(typed);
      return perMinute === undefined ? undefined : { ...body, perMinute };
    }
    case 'reading': {
      const value = readingOf(typed);
      if (value === undefined) return undefined;
      // left where it was read: that is what is corrected
      return { ...body, value, ...(body.found === body.value ? { found: value } : {}) };
    }
    case 'fitted':
      return typed.length > ENTRY_MOST.setting ? undefined : { ...body, name: typed };
    case 'asBook':
      return undefined;
  }
}

/** A number as it stands on a scale, with a point or a comma. */
export function readingOf(typed: string): number | undefined {
  return /^[-−]?\d{1,6}([.,]\d{1,6})?$/.test(typed)
    ? Number(typed.replace('−', '-').replace(',', '.'))
    : undefined;
}

function wholeOf(typed: string, most: number): number | undefined {
  const number = /^\d{1,9}$/.test(typed) ? Number(typed) : undefined;
  return number !== undefined && number <= most ? number : undefined;
}

/** Cartons a minute, with a tenth at most. */
export function tenthsOf(typed: string): number | undefined {
  const number = /^\d{1,3}(\.\d)?$/.test(typed) ? Number(typed) : 0;
  return number > 0 ? number : undefined;
}
