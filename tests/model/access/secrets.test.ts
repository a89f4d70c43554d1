import { describe, expect, it } from 'vitest';
import { secretFault, secretKind } from '../../../model/access/secrets.ts';

describe('a secret', () => {
  it.each([
    ['481529', 'code'],
    ['48152a', 'password'],
    ['', 'code'],
    ['４８１５２９', 'password'],
  ])('“%s” is a %s', (secret, kind) => {
    expect(secretKind(secret)).toBe(kind);
  });

  it.each([
    ['481529', undefined],
    ['48152', 'short'],
    ['4815294815294', 'long'],
    ['111111', 'even'],
    ['123456', 'run'],
    ['987654', 'run'],
    ['000017', 'number'],
    ['171717', 'number'],
    ['171718', undefined],
    ['ninechars', 'short'],
    ['tencharsss', undefined],
    ['aaaaaaaaaaaa', 'even'],
    ['abcdefghijkl', 'run'],
    ['🙂🙃🙂🙃🙂🙃🙂🙃🙂', 'short'],
    ['a'.repeat(201), 'long'],
    ['', 'short'],
  ])('“%s”, chosen by number 17, is found: %s', (secret, fault) => {
    expect(secretFault(secret, '17')).toBe(fault);
  });

  it('that is nothing but a long number is refused, however many zeros stand before it', () => {
    expect(secretFault('204815', '204815')).toBe('number');
    expect(secretFault('00204815', '204815')).toBe('number');
    expect(secretFault('204816', '204815')).toBeUndefined();
    expect(secretFault('maintenance-7', 'maintenance-7')).toBe('number');
  });
});
