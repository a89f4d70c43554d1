import { Mark } from '../marks/symbols.tsx';

/** A stop device or a guard as a mark: solid caused, open used during a stop, dotted of order not certain. */
export function DeviceMark({
  door,
  used,
  size,
}: {
  readonly door: boolean;
  readonly used: 'caused' | 'during' | 'uncertain' | 'noStop';
  readonly size: number;
}) {
  const dotted = used === 'uncertain' || used === 'noStop';
  const base = door ? 'd-door' : 'd-button';
  return (
    <span className={dotted && door ? 'devicemark dotted' : 'devicemark'}>
      <Mark id={used === 'caused' ? base : dotted && !door ? `${base}-dotted` : `${base}-open`} size={size} />
    </span>
  );
}

/** A test that a person recorded. */
export function TestMark({ size = 18 }: { readonly size?: number }) {
  return (
    <svg className="mark testmark" width={size} height={size} viewBox="0 0 22 22" aria-hidden="true">
      <path d="M11 2l9 9l-9 9l-9 -9z" />
      <path d="M7 11l3 4l6 -7" />
    </svg>
  );
}
