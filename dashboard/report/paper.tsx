import type { CSSProperties } from 'react';
import type { FigureId } from '../../model/figures/figures.ts';
import type { Report, Signature } from '../../model/report/report.ts';
import { REPORT_ROOMS, type ReportRoom, reportInRoom, WHOLE_ROOM } from '../../model/report/reportRoom.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton, Mark } from '../marks/symbols.tsx';
import { Rich } from '../type/line.tsx';
import { PaperHead } from './head.tsx';
import { InRoom } from './inRoom.tsx';
import { useOnePage } from './onePage.ts';
import { PaperLosses, PaperTime } from './bars.tsx';
import { PaperStations } from './stations.tsx';
import { PaperStops } from './stops.tsx';
import { PaperStrip } from './strip.tsx';

const { past } = words.screen;
const said = past.report;
const { cut } = said.paper;

/** One page of paper, also on the screen: white ground, ink, no colour that carries anything. */
export function Paper({
  report: whole,
  signatures: all,
  signed,
}: {
  readonly report: Report;
  readonly signatures: readonly Signature[];
  /** It is shown as it was signed. */
  readonly signed: boolean;
}) {
  const { page, step, zoom } = useOnePage(keyOf(whole, all, signed), REPORT_ROOMS.length);
  const room = REPORT_ROOMS[step] ?? WHOLE_ROOM;
  const { report, moreHandedOver, signatures, moreSignatures } = reportInRoom(whole, all, room);
  return (
    <article
      ref={page}
      className="paper"
      style={{ '--zoom': zoom } as CSSProperties}
      aria-label={said.title(report)}
    >
      {/* other screens are printed across, with a margin; a page's size cannot be told from a part of it alone */}
      <style>{'@media print { @page { size: A4 portrait; margin: 0 } }'}</style>
      <header className="papertitle">
        <h2>{said.title(report)}</h2>
        <p className="mark">
          <Carton drawing="discharge" width={26} className="small" /> {said.brand}
        </p>
        <p className="second">
          {report.goesOn && <b>{said.soFar} </b>}
          <InRoom text={said.lead(whole)} most={4 * room.text} />
        </p>
      </header>
      <PaperHead report={report} />
      <PaperStrip report={report} />
      <PaperTime report={report} />
      <PaperLosses report={report} />
      <PaperStations report={report} room={room} />
      <PaperStops report={report} room={room} />
      <div className="halves">
        <Safety report={report} />
        <Changeovers report={report} />
      </div>
      <KeyFigures report={report} />
      <div className="halves">
        <HandOver report={report} more={moreHandedOver} room={room} />
        <SeenBy report={report} signatures={signatures} more={moreSignatures} signed={signed} room={room} />
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
  more,
  room,
}: {
  readonly report: Report;
  /** Orders that were handed over and find no room. */
  readonly more: number;
  readonly room: ReportRoom;
}) {
  const { notes, moreNotes, handedOver } = report;
  return (
    <section className="handover">
      <h3>{said.notes.title(notes.length + moreNotes)}</h3>
      {notes.map((note) => (
        <p key={`${note.at} ${note.words}`} title={titleOf(note.words, room)}>
          {said.notes.one({ ...note, words: cut(note.words, room.text) }, report)}
        </p>
      ))}
      {handedOver.map((one) => (
        <p key={one.order} title={one.order}>
          <Figure of="handedOverDifference">
            {said.notes.handed({ ...one, order: cut(one.order, room.name) })}
          </Figure>
        </p>
      ))}
      <p>
        {said.notes.more(moreNotes)} {said.paper.moreHandedOver(more)}
      </p>
      <i className="rule" title={said.notes.write} />
      {notes.length + moreNotes < 3 && <i className="rule" />}
    </section>
  );
}

/** All of a text that was cut, for whoever reads it on a screen. */
function titleOf(text: string, room: ReportRoom): string | undefined {
  return cut(text, room.text) === text ? undefined : text;
}

function SeenBy({
  report,
  signatures,
  more,
  signed,
  room,
}: {
  readonly report: Report;
  readonly signatures: readonly Signature[];
  /** Signatures that find no room. */
  readonly more: number;
  readonly signed: boolean;
  readonly room: ReportRoom;
}) {
  return (
    <section className="seenby">
      <h3>{said.signed.title}</h3>
      {signed && <p>{said.signed.frozen(report)}</p>}
      {signatures.map((one) => (
        <p key={one.id}>
          <b>{said.signed.one({ ...one, words: undefined }, report.zone)}</b>
          {one.words !== undefined && (
            <>
              : <InRoom text={one.words} most={room.text} />
            </>
          )}
        </p>
      ))}
      <p>{said.paper.moreSignatures(more)}</p>
      {signatures.length + more < 2 && <Lines signatures={signatures} />}
    </section>
  );
}

/** To sign on paper, for who has not signed here. */
function Lines({ signatures }: { readonly signatures: readonly Signature[] }) {
  return (
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
  );
}

/** What has to be measured anew. */
function keyOf(report: Report, signatures: readonly Signature[], signed: boolean): string {
  return [report.kind, report.from, report.made, signatures.length, signed].join(' ');
}
