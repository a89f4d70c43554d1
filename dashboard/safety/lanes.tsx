import type { RanOn, Share } from '../../model/past/ranOn.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';

const { past } = words.screen;
const said = past.safety.ranOn.lanes;

/** Two lanes of time: when the line ran, and when the device read so. Where they meet is what this is about. */
export function Lanes({ one, zone }: { readonly one: RanOn; readonly zone: string }) {
  const { ran, unseen, read } = one.lanes;
  return (
    <figure className="ranlanes" role="img" aria-label={said.said(one)}>
      <span className="lanename">{said.ran}</span>
      <div className="ranlane">
        {ran.map((piece) => (
          <i key={piece.from} className="ran" style={placed(piece)} />
        ))}
        {unseen.map((piece) => (
          <i key={piece.from} className="unseenhatch" style={placed(piece)} />
        ))}
      </div>
      <span className="lanename">{said.reads(one)}</span>
      <div className="ranlane">
        <i className={isOpen(one) ? 'read abnormal' : 'read'} style={placed(read)}>
          <Figure of="ranOn" quiet>
            {past.safety.ranOn.lasted(one)}
          </Figure>
        </i>
      </div>
      <span />
      <div className="lanetimes">
        <span style={{ left: `${100 * read.from}%` }}>{past.exactly(one.at, zone)}</span>
      </div>
    </figure>
  );
}

function isOpen({ reading }: RanOn): boolean {
  return reading === 'lasts' || reading === 'open';
}

function placed({ from, to }: Share) {
  return { left: `${100 * from}%`, width: `${100 * Math.max(0, to - from)}%` };
}
