import type { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway.api.issue;

/** What somebody sent, as a schema describes it; or one whole sentence, from the catalogue, about why it is not. */
export type Read<Shape> =
  | { readonly ok: true; readonly data: Shape }
  /** `path`: where the first thing stands that does not fit; `unknown`: the key that should not be there, where it is one. */
  | {
      readonly ok: false;
      readonly why: string;
      readonly path: readonly (string | number)[];
      readonly unknown?: string;
    };

/**
 * Reads what somebody sent, and tells the first thing that does not fit. The schema library has sentences of its own,
 * which nobody is told: of its issues only the code is used. A check of our own brings its sentence from the catalogue.
 */
export function readAs<Shape>(schema: z.ZodType<Shape>, value: unknown): Read<Shape> {
  const result = schema.safeParse(value, { reportInput: true });
  if (result.success) return { ok: true, data: result.data };
  const [issue] = result.error.issues;
  if (!issue) return { ok: false, why: words.other(''), path: [] };
  const path = issue.path.map((key) => (typeof key === 'number' ? key : String(key)));
  const [unknown] = issue.code === 'unrecognized_keys' ? issue.keys : [];
  return { ok: false, why: whyOf(issue), path, ...(unknown === undefined ? {} : { unknown }) };
}

function whyOf(issue: z.core.$ZodIssue): string {
  const place = issue.path.join('.');
  if (issue.input === undefined && issue.code !== 'custom') return words.missing(place);
  switch (issue.code) {
    case 'invalid_type':
      return words.kind(place, issue.expected);
    case 'invalid_value':
      return words.choice(place, issue.values.map(String));
    case 'invalid_union':
      return issue.discriminator === undefined ? words.other(place) : words.noKind(place);
    case 'unrecognized_keys':
      return words.unknownKeys(place, issue.keys);
    case 'invalid_format':
      return words.form(place);
    case 'too_small':
      return issue.origin === 'string'
        ? words.lengthLeast(place, String(issue.minimum))
        : words.least(place, String(issue.minimum));
    case 'too_big':
      return issue.origin === 'string'
        ? words.lengthMost(place, String(issue.maximum))
        : words.most(place, String(issue.maximum));
    case 'custom':
      return issue.message;
    case 'not_multiple_of':
    case 'invalid_key':
    case 'invalid_element':
      return words.other(place);
  }
}
