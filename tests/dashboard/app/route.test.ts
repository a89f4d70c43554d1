import { describe, expect, it } from 'vitest';
import { authorOf, routeOf, themeOf } from '../../../dashboard/app/route.ts';

describe('addresses', () => {
  it('lays the Line screen out by width', () => {
    expect(routeOf('/', 1920)).toEqual({ kind: 'line', layout: 'wall' });
    expect(routeOf('/', 1680)).toEqual({ kind: 'line', layout: 'wall' });
    expect(routeOf('/', 1440)).toEqual({ kind: 'line', layout: 'desk' });
    expect(routeOf('/', 390)).toEqual({ kind: 'line', layout: 'phone' });
    expect(routeOf('/wall', 390)).toEqual({ kind: 'line', layout: 'wall' });
  });

  it('makes a panel’s position the author of what is entered there', () => {
    const route = routeOf('/panel/front/', 1280);
    expect(route).toEqual({ kind: 'panel', position: 'front' });
    expect(authorOf(route, 1280)).toEqual({ kind: 'position', position: 'front' });
    expect(authorOf(routeOf('/', 390), 390)).toEqual({ kind: 'screen', screen: 'phone' });
  });

  it('has the people at an address of their own, whose author is a desk', () => {
    for (const path of ['/people', '/people/']) expect(routeOf(path, 1440)).toEqual({ kind: 'people' });
    expect(authorOf(routeOf('/notices/n1', 390), 390)).toEqual({ kind: 'screen', screen: 'phone' });
    expect(authorOf(routeOf('/people', 1440), 1440)).toEqual({ kind: 'screen', screen: 'desk' });
    expect(routeOf('/people/17', 1440)).toEqual({ kind: 'line', layout: 'desk' });
  });

  it('takes the look from the address, then from what was chosen, then from the system', () => {
    expect(themeOf('?theme=dark', 'light', false)).toBe('dark');
    expect(themeOf('', 'light', true)).toBe('light');
    expect(themeOf('?theme=pink', null, true)).toBe('dark');
  });
});
