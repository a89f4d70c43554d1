import type { FittedView } from '../view/fittedView.ts';
import { capital } from './english-say.ts';
import { author, when } from './english-sheet-said.ts';

type Thing = Pick<FittedView, 'what' | 'name'>;

/** What it is called in a sentence. */
const thing = ({ what, name }: Thing) => (what === 'lot' ? 'lot of board' : (name ?? 'set of change parts'));

/** Lots of board and change parts: which runs, and which it is from now on. */
export const fittedWords = {
  title: 'Board lot and change parts',
  lead: 'Which lot of board is in, and which change parts are fitted, from now on. What runs taught is told apart by them.',
  thing,
  name: (one: Thing) => capital(thing(one)),
  now: ({ now }: FittedView, clock: number, zone: string, position: (id: string) => string) =>
    now === undefined
      ? 'nobody has said'
      : `since ${when(now.at, clock, zone)}, by ${now.author === undefined ? 'the PLC' : author(now.author, position)}`,
  another: 'Enter another',
  first: 'Enter it',
  asks: (one: Thing) =>
    one.what === 'lot'
      ? 'Which lot of board is in?'
      : one.name === undefined
        ? 'Which set of change parts is fitted?'
        : `Which one is fitted: ${one.name}?`,
  which: 'What is fitted?',
  key: (lot: string | undefined) => ['Lot or part', lot === undefined ? 'say which runs' : `lot ${lot}`],
  /** On a part's step of a changeover sheet. */
  stepKey: (one: FittedView) => [
    one.what === 'lot' ? 'Which lot?' : 'Which one?',
    one.now === undefined ? 'by its name' : `last ${one.now.name}`,
  ],
} as const;
