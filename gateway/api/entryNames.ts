import type { Line } from '../../model/line/line.ts';
import type { EntryNames } from '../../model/words/english-said.ts';
import { wordsIn } from '../../model/words/words.ts';

const { past, fitted } = wordsIn('en').screen;

/** What the line's file calls what entries name by an id; what it does not name is told by its id. */
export function entryNamesOf({
  stations,
  sizes,
  devices,
  guards,
  answers,
  changeoverSteps,
}: Line): EntryNames {
  const all = [...answers, ...stations.flatMap((station) => station.answers)];
  const nameIn =
    (list: readonly { readonly id: string; readonly name: string }[]) =>
    (id: string): string =>
      list.find((one) => one.id === id)?.name ?? id;
  return {
    station: (id) => {
      if (id === null) return past.noStation;
      const known = stations.find((one) => one.id === id);
      return known ? past.station(known.number, known.name) : id;
    },
    size: nameIn(sizes),
    device: nameIn([...devices, ...guards]),
    step: (id) =>
      fitted.thing({ what: 'parts', name: id === undefined ? undefined : nameIn(changeoverSteps)(id) }),
    answer: (id) => (id === 'other' ? past.said.other : nameIn(all)(id)),
  };
}
