import { words } from '../app/words.ts';
import { Key } from './key.tsx';

/** Longer numbers than this are a slip of the glove. */
const DIGITS_MOST = 12;
const KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', 'erase', '0'] as const;

/** Digits for gloves, on the left of a page; what they make is `digits`. */
export function Keypad({
  digits,
  most = DIGITS_MOST,
  type,
}: {
  readonly digits: string;
  readonly most?: number;
  readonly type: (digits: string) => void;
}) {
  const { panel } = words.screen;
  return KEYS.map((key, i) => (
    <Key
      key={key}
      says={[key === 'erase' ? panel.erase : key]}
      left={24 + (i % 3) * 198}
      top={246 + Math.floor(i / 3) * 137}
      width={190}
      height={130}
      kind={key === 'erase' ? 'digit erase' : 'digit'}
      onTap={() => type(key === 'erase' ? digits.slice(0, -1) : `${digits}${key}`.slice(0, most))}
    />
  ));
}
