import type { Author } from '../../model/entries/entries.ts';

/** Which screen an address means. The layout of the Line screen follows the width unless the address says wall. */
export type Route =
  | { readonly kind: 'line'; readonly layout: 'wall' | 'desk' | 'phone' }
  | { readonly kind: 'panel'; readonly position: string }
  | { readonly kind: 'people' }
  /** The setter's sheet of a changeover; at a panel it is one of its pages. */
  | { readonly kind: 'sheet' }
  /** All of them, one by its id, or `settings`. */
  | { readonly kind: 'notices'; readonly of?: string }
  | { readonly kind: 'past'; readonly screen: PastScreen; readonly of?: string };

/** The screens that look back, by their addresses. */
export const PAST_SCREENS = [
  'stations',
  'maintenance',
  'stops',
  'safety-stops',
  'changeovers',
  'setpoints',
  'replay',
  'figures',
  'report',
  'signals',
] as const;
export type PastScreen = (typeof PAST_SCREENS)[number];

export type Theme = 'light' | 'dark';

/** Widths from which on the wall and the desk are used; between phone and desk the desk's type would be too small. */
export const WALL_FROM = 1680;
export const DESK_FROM = 1200;

export function routeOf(path: string, width: number): Route {
  const panel = /^\/panel\/([^/]+)\/?$/.exec(path);
  if (panel?.[1] !== undefined) return { kind: 'panel', position: decodeURIComponent(panel[1]) };
  // its own addresses go one part further: the size, then an adjustment or the page to print
  if (/^\/setpoints(?:\/[^/]+){0,2}\/?$/.test(path)) return { kind: 'past', screen: 'setpoints' };
  const past = /^\/([a-z-]+)(?:\/([^/]+))?\/?$/.exec(path);
  const screen = PAST_SCREENS.find((one) => one === past?.[1]);
  if (screen !== undefined)
    return { kind: 'past', screen, ...(past?.[2] === undefined ? {} : { of: decodeURIComponent(past[2]) }) };
  const notice = /^\/notices(?:\/([^/]+))?\/?$/.exec(path);
  if (notice)
    return { kind: 'notices', ...(notice[1] === undefined ? {} : { of: decodeURIComponent(notice[1]) }) };
  if (/^\/people\/?$/.test(path)) return { kind: 'people' };
  if (/^\/sheet\/?$/.test(path)) return { kind: 'sheet' };
  if (path.startsWith('/wall')) return { kind: 'line', layout: 'wall' };
  return { kind: 'line', layout: width >= WALL_FROM ? 'wall' : width >= DESK_FROM ? 'desk' : 'phone' };
}

/** The author of what is entered here: a panel's position, else the kind of screen. */
export function authorOf(route: Route, width: number): Author {
  if (route.kind === 'panel') return { kind: 'position', position: route.position };
  if (route.kind === 'line') return { kind: 'screen', screen: route.layout };
  return { kind: 'screen', screen: width >= DESK_FROM ? 'desk' : 'phone' };
}

/** The address, then what was chosen here before, then the system. */
export function themeOf(search: string, chosen: string | null, dark: boolean): Theme {
  const asked = new URLSearchParams(search).get('theme') ?? chosen;
  if (asked === 'light' || asked === 'dark') return asked;
  return dark ? 'dark' : 'light';
}
