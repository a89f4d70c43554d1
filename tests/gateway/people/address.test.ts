import { describe, expect, it } from 'vitest';
import { guessAddress } from '../../../gateway/people/address.ts';
import { dropToken, setToken, tokenOf } from '../../../gateway/people/cookie.ts';
import { isOfThisSite, onlyReads } from '../../../gateway/people/sameSite.ts';

describe('where a guess comes from', () => {
  it.each([
    ['192.0.2.7', '192.0.2.7'],
    ['::ffff:192.0.2.7', '192.0.2.7'],
    ['2001:db8:1:2:aaaa:bbbb:cccc:dddd', '2001:db8:1:2'],
    ['2001:db8:1:2::1', '2001:db8:1:2'],
    ['2001:db8::1', '2001:db8:0:0'],
    ['::1', '0:0:0:0'],
    ['fe80::1%eth0', 'fe80:0:0:0'],
    ['', ''],
  ])('%s counts as %s', (remote, counted) => {
    expect(guessAddress(remote)).toBe(counted);
  });
});

describe('a token', () => {
  const token = 'a'.repeat(43);

  it.each([
    [`scoreline_session=${token}`, token],
    [`other=1; scoreline_session=${token}; more=2`, token],
    [`scoreline_session=${token}; scoreline_session=${'b'.repeat(43)}`, token],
    [`scoreline_session=${token}x`, undefined],
    ['scoreline_session=', undefined],
    [`SCORELINE_SESSION=${token}`, undefined],
    ['', undefined],
  ])('of the cookie “%s” is %s', (cookie, found) => {
    expect(tokenOf({ cookie })).toBe(found);
  });

  it('goes out in the clear only where the browser came so', () => {
    expect(setToken(token, true)).toBe(
      `scoreline_session=${token}; Path=/; HttpOnly; SameSite=Strict; Secure`,
    );
    expect(dropToken(false)).toBe('scoreline_session=; Path=/; HttpOnly; SameSite=Strict; Max-Age=0');
  });
});

describe('a page', () => {
  it.each([
    [undefined, 'localhost:8080', true],
    ['http://localhost:8080', 'localhost:8080', true],
    ['https://scoreline.example', 'scoreline.example', true],
    ['http://localhost:8081', 'localhost:8080', false],
    ['http://elsewhere.example', 'localhost:8080', false],
    ['null', 'localhost:8080', false],
    ['', 'localhost:8080', false],
  ])('of %s asking %s is of this site: %s', (origin, host, own) => {
    expect(isOfThisSite({ host, ...(origin === undefined ? {} : { origin }) })).toBe(own);
  });

  it('may read by three methods, and by no other', () => {
    const methods = ['GET', 'HEAD', 'OPTIONS', 'POST', 'PUT', 'PATCH', 'DELETE', 'TRACE', 'get'];
    expect(methods.filter(onlyReads)).toEqual(['GET', 'HEAD', 'OPTIONS']);
  });
});
