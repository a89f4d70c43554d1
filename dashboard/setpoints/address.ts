import { type MouseEvent, useEffect, useState } from 'react';

/** What an address of the Set points screen means: a size, one of its adjustments, or the page to print. */
export interface SetPointPlace {
  readonly size: string | undefined;
  readonly number: string | undefined;
  readonly paper: boolean;
}

const PAPER = 'paper';

export function placeOf(path: string): SetPointPlace {
  const [, , size, part] = path.split('/');
  const named = (text: string | undefined) =>
    text === undefined || text === '' ? undefined : decodeURIComponent(text);
  const paper = part === PAPER;
  return { size: named(size), number: paper ? undefined : named(part), paper };
}

export function pathOf(size: string, part?: string): string {
  const parts = ['', 'setpoints', size, ...(part === undefined ? [] : [part])];
  return parts.map((one) => encodeURIComponent(one)).join('/');
}

export const paperOf = (size: string): string => pathOf(size, PAPER);

/** Where the page is, and how it goes to another place of the same screen without being loaded anew. */
export function useSetPointPlace(): readonly [SetPointPlace, Goes] {
  const [place, set] = useState<SetPointPlace>(() => placeOf(location.pathname));
  useEffect(() => {
    const follow = () => set(placeOf(location.pathname));
    addEventListener('popstate', follow);
    return () => removeEventListener('popstate', follow);
  }, []);
  const goes: Goes = (path) => ({
    href: path + location.search,
    onClick: (event) => {
      // a new tab or window is the browser's own
      if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
      event.preventDefault();
      history.pushState(null, '', path + location.search);
      set(placeOf(path));
    },
  });
  return [place, goes];
}

/** What makes a link of an address. */
export type Goes = (path: string) => {
  readonly href: string;
  readonly onClick: (event: MouseEvent<HTMLAnchorElement>) => void;
};
