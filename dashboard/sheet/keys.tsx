import type { NumberStep } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';

const said = words.screen.sheet.field;

/** Longer numbers than this are a slip of the glove. */
const TYPED_MOST = 8;

/** Keys that gloves can press, for a number of a scale: a point and a sign only where its scale has them. */
export function NumberKeys({
  step,
  typed,
  type,
}: {
  readonly step: Pick<NumberStep, 'decimals' | 'min'>;
  readonly typed: string;
  readonly type: (typed: string) => void;
}) {
  const hasPoint = step.decimals > 0;
  const hasSign = step.min < 0;
  const add = (key: string) => type(`${typed}${key}`.slice(0, TYPED_MOST));
  const press: Readonly<Record<string, () => void>> = {
    [said.point]: () => !typed.includes('.') && add(/\d$/.test(typed) ? '.' : '0.'),
    [said.sign]: () => type(typed.startsWith('−') ? typed.slice(1) : `−${typed}`),
    [said.erase]: () => type(typed.slice(0, -1)),
  };
  const beside = [...(hasPoint ? [said.point] : []), ...(hasSign ? [said.sign] : [])];
  const keys =
    beside.length > 1
      ? ['1', '2', '3', said.erase, '4', '5', '6', said.sign, '7', '8', '9', said.point, '0']
      : ['1', '2', '3', '4', '5', '6', '7', '8', '9', beside[0], '0', said.erase];
  return (
    <div className={beside.length > 1 ? 'numberkeys both' : 'numberkeys'}>
      {keys.map((key) =>
        key === undefined ? (
          <span key="none" />
        ) : (
          <button
            key={key}
            type="button"
            className={key === said.erase ? 'erase' : 'digit'}
            onClick={press[key] ?? (() => add(key))}
          >
            {key}
          </button>
        ),
      )}
    </div>
  );
}
