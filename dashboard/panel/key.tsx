import type { ReactNode } from 'react';
import { words } from '../app/words.ts';
import { Carton, Mark } from '../marks/symbols.tsx';

/** Something to press with gloves on: never under 130 px, a main word and a line below it. */
export function Key({
  says,
  left,
  top,
  width,
  height,
  onTap,
  look = 'plain',
  kind = '',
  mark,
  drawing,
  disabled = false,
  ready = true,
  children,
}: {
  readonly says: readonly string[];
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly onTap: () => void;
  /** asks: an answer is wanted. quiet: not the main thing. */
  readonly look?: 'plain' | 'asks' | 'quiet';
  readonly kind?: string;
  readonly mark?: string;
  readonly drawing?: string;
  readonly disabled?: boolean;
  /** Not yet ready: it looks as it will and takes no tap, so that nothing flickers. */
  readonly ready?: boolean;
  readonly children?: ReactNode;
}) {
  return (
    <button
      type="button"
      className={`key ${look} ${kind}`}
      style={{ left, top, width, height }}
      onClick={ready ? onTap : undefined}
      disabled={disabled}
      aria-disabled={ready ? undefined : true}
    >
      {mark !== undefined && <Mark id={mark} size={62} />}
      {drawing !== undefined && (
        <Carton
          drawing={drawing.replace(/-off$/, '')}
          off={drawing.endsWith('-off')}
          width={112}
          className="bare plain"
        />
      )}
      {children ?? (
        <span>
          {says[0]}
          {says[1] !== undefined && <small>{says[1]}</small>}
        </span>
      )}
    </button>
  );
}

/** Leaves a page, and says what that does. */
export function BackKey({
  to = words.screen.panel.nothingChanges,
  left = 24,
  top = 660,
  width = 604,
  onTap,
}: {
  readonly to?: string;
  readonly left?: number;
  readonly top?: number;
  readonly width?: number;
  readonly onTap: () => void;
}) {
  const says = [words.screen.panel.back, to];
  return (
    <Key
      says={says}
      left={left}
      top={top}
      width={width}
      height={130}
      look="quiet"
      kind="back"
      onTap={onTap}
    />
  );
}

/** The panel's question, in the one place where questions stand. */
export function Ask({
  children,
  top,
  plain = false,
}: {
  readonly children: string;
  readonly top: number;
  readonly plain?: boolean;
}) {
  return (
    <h1 className="ask" style={{ top }}>
      <Mark id={plain ? 'm-note' : 'n-want'} size={60} />
      <span>{children}</span>
    </h1>
  );
}
