import type { CSSProperties, ReactNode } from 'react';
import { replayAddress, type Shown } from '../../model/replay/address.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';

const said = words.screen.past.replay.seeIt;

/**
 * [RP20] The moment at which something happened, as the way to see it happen. What stands inside is the moment, or words that
 * say where it leads; with nothing inside it is the mark alone. `named` says what is seen to those who do not see the mark.
 */
export function SeeIt({
  children,
  named,
  className,
  style,
  reached = true,
  ...shown
}: Omit<Shown, 'line'> & {
  readonly children?: ReactNode;
  readonly named?: string;
  readonly className?: string;
  readonly style?: CSSProperties;
  /** False where the keyboard reaches the same elsewhere. */
  readonly reached?: boolean;
}) {
  const { id } = usePart('line');
  return (
    <a
      className={className === undefined ? 'seeit' : `seeit ${className}`}
      href={replayAddress({ line: id, ...shown })}
      title={said.title}
      {...(style ? { style } : {})}
      {...(reached ? {} : { tabIndex: -1 })}
    >
      {children}
      <span className="unseen">{children === undefined ? said.of(named) : `, ${named ?? said.see}`}</span>
      <SeeMark />
    </a>
  );
}

/** A carton in its pocket, about to go on. */
function SeeMark() {
  return (
    <svg className="seemark noprint" width={16} height={14} viewBox="0 0 16 14" aria-hidden="true">
      <path d="M1 5V13H15V5" />
      <path className="full" d="M5 1L12 5.5L5 10Z" />
    </svg>
  );
}
