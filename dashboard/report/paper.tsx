import type { FigureId } from '../../model/figures/figures.ts';
import type { Report, Signature } from '../../model/report/report.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton, Mark } from '../marks/symbols.tsx';
import { Rich } from '../type/line.tsx';
import { PaperHead } from './head.tsx';
import { useOnePage } from './onePage.ts';
import { PaperLosses, PaperTime } from './bars.tsx';
import { PaperStations } from './stations.tsx';
import { PaperStops } from './stops.tsx';
import { PaperStrip } from './strip.tsx';

const { past } = words.screen;
const said = past.report;

/** One page of paper, also on the screen: white ground, ink, no colour that carries anything. */
export function Paper({
  report,
  signatures,
  signed,
}: {
  readonly report: Report;
  readonly signatures: readonly Signature[];
  /** It is shown as it was signed. */
  readonly signed: boolean;
}) {
  const [page, fitted] = useOnePage(`${report.kind} ${report.from} ${report.made}`);
  return (
    <article ref={page} className="paper" style={fitted} aria-label={said.title(report)}>
      {/* other screens are printed across, with a margin; a page's size cannot be told from a part of it alone */}
      <style>{'@media print { @page { size: A4 portrait; margin: 0 } }'}</style>
      <header className="papertitle">
        <h2>{said.title(report)}</h2>
        <p className="mark">
          <Carton drawing="discharge" width={26} className="small" /> {said.brand}
        </p>
        <p className="second">
          {report.goesOn && <b>{said.soFar} </b>}
          {said.lead(report)}
        </p>
      </header>
      <PaperHead report={report} />
      <PaperStrip report={report} />
      <PaperTime report={report} />
      <PaperLosses report={report} />
      <PaperStations report={report} />
      <PaperStops report={report} />
      <div className="halves">
        <Safety report={report} />
        <Changeovers report={report} />
      </div>
      <KeyFigures report={report} />
      <div className="halves">
        <HandOver report={report} signatures={signatures} />
        <SeenBy report={report} signatures={signatures} signed={signed} />
      </div>
      <footer>
        <span>
          {said.foot(report)} {said.safety.caution}
        </span>
      </footer>
    </article>
  );
}

function Safety({ report }: { readonly report: Report }) {
  const { list, uses, ranOn, notExplained } = report.safety;
  return (
    <section>
      <h3>
        <Figure of="presses">{said.safety.title(uses)}</Figure>
      </h3>
      {uses === 0 && <p>{said.safety.none}</p>}
      {list.map((use) => (
        <p key={use.id}>
          <Mark id="d-button" size={13} /> <Rich text={said.safety.use(use, report)} />
        </p>
      ))}
      <p>
        {said.safety.more(uses - list.length)}{' '}
        <Figure of="ranOn">{said.safety.ranOn(ranOn, notExplained)}</Figure>
      </p>
    </section>
  );
}

function Changeovers({ report }: { readonly report: Report }) {
  const { changeovers, moreChangeovers, unseen, moreUnseen } = report;
  return (
    <section>
      <h3>
        <Figure of="changeoverTime">{said.changeovers.title(changeovers.length + moreChangeovers)}</Figure>
      </h3>
      {changeovers.length === 0 && <p>{said.changeovers.none}</p>}
      {changeovers.map((one) => (
        <p key={one.id}>
          <Rich text={said.changeovers.one(one, report)} />
        </p>
      ))}
      <p>{said.changeovers.more(moreChangeovers)}</p>
      <h3>
        <Figure of="notSeen">{said.unseen.title}</Figure>
      </h3>
      <p>
        {unseen.length === 0
          ? said.unseen.none
          : `${unseen.map((gap) => said.unseen.one(gap, report)).join(', ')}${said.unseen.more(moreUnseen)}. ${said.unseen.means}`}
      </p>
    </section>
  );
}

/** Each with how it is made, as paper has no tap. */
function KeyFigures({ report }: { readonly report: Report }) {
  const { of, screen } = past.figures;
  const value = (id: FigureId) => screen.told(report.figures.find((one) => one.id === id));
  return (
    <section className="keyfigures">
      <h3>{said.figures.title}</h3>
      <dl>
        {said.figures.ids.map((id) => {
          const [number, range] = value(id);
          return (
            <div key={id}>
              <dt>
                <Figure of={id}>{of[id].name}</Figure>
              </dt>
              <dd>
                <b>{number}</b> {number === '–' ? '' : screen.unitOf(id)} {range}{' '}
                <small>= {shortHow(of[id].how)}</small>
              </dd>
            </div>
          );
        })}
      </dl>
    </section>
  );
}

/** The formula alone: what follows a semicolon is said on the screen. */
function shortHow(how: string): string {
  return how.split(';')[0] ?? how;
}

function HandOver({
  report,
  signatures,
}: {
  readonly report: Report;
  readonly signatures: readonly Signature[];
}) {
  const { notes, moreNotes, handedOver } = report;
  const added = signatures.filter((one) => one.words !== undefined);
  return (
    <section className="handover">
      <h3>{said.notes.title(notes.length + moreNotes)}</h3>
      {notes.map((note) => (
        <p key={`${note.at} ${note.words}`}>{said.notes.one(note, report)}</p>
      ))}
      {added.map((one) => (
        <p key={one.id}>{said.signed.one(one, report.zone)}</p>
      ))}
      {handedOver.map((one) => (
        <p key={one.order}>
          <Figure of="handedOverDifference">{said.notes.handed(one)}</Figure>
        </p>
      ))}
      <p>{said.notes.more(moreNotes)}</p>
      <i className="rule" title={said.notes.write} />
      {notes.length < 3 && <i className="rule" />}
    </section>
  );
}

function SeenBy({
  report,
  signatures,
  signed,
}: {
  readonly report: Report;
  readonly signatures: readonly Signature[];
  readonly signed: boolean;
}) {
  return (
    <section className="seenby">
      <h3>{said.signed.title}</h3>
      {signed && <p>{said.signed.frozen(report)}</p>}
      {signatures.map((one) => (
        <p key={one.id}>
          <b>{said.signed.one({ ...one, words: undefined }, report.zone)}</b>
        </p>
      ))}
      {signatures.length < 2 && (
        <div className="lines">
          {(['handsOver', 'takesOver'] as const)
            .filter((as) => !signatures.some((one) => one.as === as))
            .map((as) => (
              <p key={as}>
                <i className="rule" />
                {said.signed.line(as)}
              </p>
            ))}
        </div>
      )}
    </section>
  );
}
