import type { EntryBody } from '../../model/entries/entries.ts';
import type { LineFold } from '../../model/fold/fold.ts';
import { epochMs } from '../../model/units/units.ts';
import { viewOf } from '../../model/view/lineView.ts';
import type { Matter } from '../../model/view/matter.ts';
import { at } from './smallLine.ts';

export function matters(fold: LineFold, second: number): readonly Matter[] {
  return viewOf(fold, at(second), { servers: [] }).matters;
}

export function ms(second: number): number {
  return epochMs(at(second));
}

export function entered(id: string, body: EntryBody): string {
  return JSON.stringify({ id, at: 0, author: { kind: 'screen', screen: 'desk' }, ...body });
}
