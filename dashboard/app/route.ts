import type { Author } from '../../model/entries/entries.ts';

/** Which screen an address means. The layout of the Line screen follows the width unless the address says wall. */
export type Route =
  | { readonly kind: 'line'; readonly layout: 'wall' | 'desk' | 'phone' }
  | { readonly kind: 'panel'; readonly position: string };

export type Theme = 'light' | 'dark';

/** Widths from which on the wall and the desk are used; between phone and desk the desk's type would be too small. */
export const WALL_FROM = 1680;
export const DESK_FROM = 1200;

export function routeOf(path: string, width: number): Route {
  const panel = /^\/panel\/([^/]+)\/?$/.exec(path);
  if (panel?.[1] !== undefined) return { kind: 'panel', position: decodeURIComponent(panel[1]) };
  if (path.startsWith('/wall')) return { kind: 'line', layout: 'wall' };
  return { kind: 'line', layout: width >= WALL_FROM ? 'wall' : width >= DESK_FROM ? 'desk' : 'phone' };
}

/** The author of what is entered here: a panel's position, else the kind of screen. */
export function authorOf(route: Route): Author {
  return route.kind === 'panel'
    ? { kind: 'position', position: route.position }
    : { kind: 'screen', screen: route.layout };
}

/** The address, then what was chosen here before, then the system. */
export function themeOf(search: string, chosen: string | null, dark: boolean): Theme {
  const asked = new URLSearchParams(search).get('theme') ?? chosen;
  if (asked === 'light' || asked === 'dark') return asked;
  return dark ? 'dark' : 'light';
}
