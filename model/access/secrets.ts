import type { SecretKind } from './access.ts';

/** A password has so many characters at least, a short code so many digits; neither is longer than what a hand types. */
export const SECRET = { passwordLeast: 10, codeLeast: 6, codeMost: 12, most: 200 } as const;

/** What keeps a secret from being taken. */
export type SecretFault = 'short' | 'long' | 'number' | 'even' | 'run';

/** Digits alone are a code; anything else is a password. */
export function secretKind(secret: string): SecretKind {
  return /^\d*$/.test(secret) ? 'code' : 'password';
}

/** What is wrong with a secret that somebody chooses; undefined where nothing is. `number`: whose it is to be. */
export function secretFault(secret: string, number: string): SecretFault | undefined {
  const kind = secretKind(secret);
  const length = [...secret].length;
  if (length < (kind === 'code' ? SECRET.codeLeast : SECRET.passwordLeast)) return 'short';
  if (length > (kind === 'code' ? SECRET.codeMost : SECRET.most)) return 'long';
  if (isNumber(secret, number)) return 'number';
  if (isRun(secret, 0)) return 'even';
  return isRun(secret, 1) || isRun(secret, -1) ? 'run' : undefined;
}

/** Whether it is nothing but the person's number: with zeros before it, or said over and over. */
function isNumber(secret: string, number: string): boolean {
  const bare = (text: string) => text.replace(/^0+/, '');
  return bare(secret) === bare(number) || secret.replaceAll(number, '') === '';
}

/** Whether each character is so many after the one before, as in 123456. */
function isRun(secret: string, by: number): boolean {
  const places = [...secret].map((character) => character.codePointAt(0)!);
  return places.every((place, i) => i === 0 || place === places[i - 1]! + by);
}
