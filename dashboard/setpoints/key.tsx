import { words } from '../app/words.ts';
import { Stands } from './scale.tsx';

const { key } = words.screen.past.setPoints;

/** What the marks of a scale mean. */
export function BookKey() {
  return (
    <ul className="pastkey">
      <li>
        <svg width={8} height={20} aria-hidden="true">
          <line className="book1" x1={4} x2={4} y1={0} y2={20} />
        </svg>
        {key.book}
      </li>
      <li>
        <svg width={18} height={14} aria-hidden="true">
          <rect className="ranwell1" width={18} height={14} />
        </svg>
        {key.ranWell}
      </li>
      <li>
        <svg width={22} height={10} aria-hidden="true">
          <path className="likely1" d="M1 5H21M1 2v6M21 2v6" />
        </svg>
        {key.likely}
      </li>
      {(['sensor', 'typed', 'confirmed', 'silent'] as const).map((known) => (
        <li key={known}>
          <svg width={16} height={26} aria-hidden="true">
            <Stands x={8} known={known} outside={false} />
          </svg>
          {key[known === 'typed' ? 'entered' : known]}
        </li>
      ))}
      <li>
        <svg width={20} height={16} aria-hidden="true">
          <path className="collar1" d="M2 0v16M18 0v16" />
        </svg>
        {key.neverVaried}
      </li>
    </ul>
  );
}
