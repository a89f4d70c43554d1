import { words } from '../app/words.ts';

const { cut } = words.screen.past.report.paper;

/** A text that finds so much room; where it is cut, all of it is its title, for whoever reads it on a screen. */
export function InRoom({ text, most }: { readonly text: string; readonly most: number }) {
  const shown = cut(text, most);
  return shown === text ? text : <span title={text}>{shown}</span>;
}
