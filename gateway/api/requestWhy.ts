import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway.api.request;

/** What the reader of bodies found wrong, by its type (body-parser, "Errors"). */
const ofBody: Readonly<Record<string, string>> = {
  'entity.too.large': words.tooLarge,
  'entity.parse.failed': words.noJson,
  'encoding.unsupported': words.encoding,
  'charset.unsupported': words.encoding,
  'request.aborted': words.cutShort,
  'request.size.invalid': words.cutShort,
};

/** Whether the address itself could not be read: the router says so by the language's own error. */
export function isBadAddress(error: unknown): boolean {
  return error instanceof URIError;
}

/** Why a request was refused before any route saw it. What the web library says of it in its own words is not told. */
export function requestWhy(error: unknown): string {
  if (isBadAddress(error)) return words.badAddress;
  const { type } = error as { readonly type?: unknown };
  return (typeof type === 'string' && Object.hasOwn(ofBody, type) ? ofBody[type] : undefined) ?? words.other;
}
