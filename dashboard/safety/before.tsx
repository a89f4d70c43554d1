import type { SafetyPast } from '../../model/past/safetyPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';

const { past } = words.screen;
const said = past.safety.before;

/** Marks drawn of one row; of more, how many there are says the number. */
const MARKS_MOST = 24;

/** What came before the uses, in a fixed order: one mark is one use. */
export function Before({ safety }: { readonly safety: SafetyPast }) {
  return (
    <section className="sheet beforeuses">
      <h2>
        <Figure of="cameBefore">{said.title}</Figure>
      </h2>
      <p className="second">{said.about}</p>
      <ul>
        {safety.before.map(({ kind, uses }) => (
          <li key={kind} aria-label={said.row(kind, uses)}>
            <span>{past.capital(said.kinds[kind])}</span>
            <span className="tallies" aria-hidden="true">
              {Array.from({ length: Math.min(MARKS_MOST, uses) }, (_, place) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: marks of one row are all the same
                <i key={place} className={kind === 'uncertain' || kind === 'unseen' ? 'use dotted' : 'use'} />
              ))}
              <b>
                <Figure of="cameBefore" quiet>
                  {past.count(uses)}
                </Figure>
              </b>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
