import type { ReactNode } from 'react';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Ask, BackKey, Key } from './key.tsx';
import { FlowHead } from './panel-head.tsx';

const KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', 'erase', '0'] as const;

/** A page that asks for a number: keys on the left, and beside them what was typed, what it means, and what takes it. */
export function KeypadPage({
  here,
  title,
  right = '',
  asks,
  digits,
  most,
  type,
  typed,
  take,
  to,
  back,
  children,
}: {
  readonly here: PositionView;
  readonly title: string;
  readonly right?: string;
  readonly asks: string;
  readonly digits: string;
  /** As many digits as it may have. */
  readonly most: number;
  readonly type: (digits: string) => void;
  /** The digits as they are shown. */
  readonly typed: string;
  /** The key that takes it, dead until it can be taken. */
  readonly take: { readonly says: readonly string[]; readonly ready: boolean; readonly onTap: () => void };
  /** Where the back key leads. */
  readonly to?: string;
  readonly back: () => void;
  /** What the number means. */
  readonly children: ReactNode;
}) {
  return (
    <>
      <FlowHead here={here} title={title} right={right} />
      <Ask top={178}>{asks}</Ask>
      <Digits digits={digits} most={most} type={type} />
      <output className="typed">{typed}</output>
      <p className="found" role="status">
        {children}
      </p>
      <Key
        says={take.says}
        left={652}
        top={522}
        width={604}
        height={130}
        look="asks"
        kind="take"
        disabled={!take.ready}
        onTap={take.onTap}
      />
      <BackKey {...(to === undefined ? {} : { to })} left={652} top={660} onTap={back} />
    </>
  );
}

function Digits({
  digits,
  most,
  type,
}: {
  readonly digits: string;
  readonly most: number;
  readonly type: (digits: string) => void;
}) {
  const { panel } = words.screen;
  return KEYS.map((key, i) => (
    <Key
      key={key}
      says={[key === 'erase' ? panel.erase : key]}
      left={24 + (i % 3) * 198}
      top={246 + Math.floor(i / 3) * 138}
      width={190}
      height={130}
      kind={key === 'erase' ? 'digit erase' : 'digit'}
      onTap={() => type(key === 'erase' ? digits.slice(0, -1) : `${digits}${key}`.slice(0, most))}
    />
  ));
}
