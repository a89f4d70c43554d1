import { figureOf, isFigure } from '../../model/figures/figures.ts';
import type { Report, Signature } from '../../model/report/report.ts';
import { wordsIn } from '../../model/words/words.ts';
import { csvText, isoMoment, typedText } from './csvText.ts';

const { report: said, figures } = wordsIn('en').screen.past;
const { rows: file } = said;
const { units } = file;

/** A cell: numbers and moments as they are; a text may have been typed by a person, or come from a PLC. */
type Cell = string | number | undefined;
interface Cells {
  readonly where?: Cell;
  readonly value?: Cell;
  readonly unit?: string;
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
  /** Milliseconds since 1970. */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  readonly remark?: string;
}
type Row = (zone: string) => readonly string[];

/** A report as a file: one number a row, with its unit and where it belongs. Not known is empty. */
export function reportCsv(report: Report, signatures: readonly Signature[]): string {
  const rows = [
    ...about(report),
    ...figureRows(report),
    ...lostRows(report),
    ...stationRows(report),
    ...faultRows(report),
    ...stopRows(report),
    ...safetyRows(report),
    ...changeoverRows(report),
    ...unseenRows(report),
    ...noteRows(report),
    ...signatureRows(signatures),
  ];
  return csvText([file.columns, ...rows.map((row) => row(report.zone))]);
}

function row(part: keyof typeof file.parts, what: string, cells: Cells): Row {
  const moment = (ms: number | undefined, zone: string) => (ms === undefined ? '' : isoMoment(ms, zone));
  return (zone) => [
    file.parts[part],
    text(what),
    text(cells.where),
    text(cells.value),
    cells.unit ?? '',
    text(cells.lower),
    text(cells.upper),
    moment(cells.from, zone),
    moment(cells.to, zone),
    text(cells.remark),
  ];
}

/** What is no number is never read as a formula, whoever it came from. */
function text(cell: Cell): string {
  if (cell === undefined) return '';
  return typeof cell === 'number' ? String(cell) : typedText(cell);
}

/** The last row of a list that holds no more: how many it left out, and what they came to. */
function rest(part: keyof typeof file.parts, what: string, left: number, cells: Cells = {}): readonly Row[] {
  if (left <= 0) return [];
  return [row(part, what, { value: left, unit: units.times, remark: file.rest.remark, ...cells })];
}

const seconds = (ms: number) => Number((ms / 1000).toFixed(1));
const stationSaid = (station: { readonly number: number; readonly name: string } | undefined) =>
  station && `${station.number} ${station.name}`;
const joined = (parts: readonly string[]) => parts.filter((part) => part !== '').join('; ');
const plain = (marked: string) => marked.replaceAll('**', '');

function about(report: Report): readonly Row[] {
  const { line, from, to, goesOn, model, position, made, sizes } = report;
  return [
    row('report', said.title(report), { where: line.name, remark: said.lead(report) }),
    row('report', file.report.span, { from, to, remark: goesOn ? file.report.goesOn : '' }),
    row('report', file.report.sizes, { value: sizes.join(', ') }),
    row('report', file.report.made, { from: made, remark: file.model(model, position) }),
  ];
}

/** A page that was signed may bear a figure that there is no more: it has its id, and no unit. */
function figureRows({ figures: values }: Report): readonly Row[] {
  return values.map(({ id, value, lower, upper, none }) =>
    row('figure', figures.screen.nameOf(id), {
      value,
      unit: isFigure(id) ? figures.screen.fileUnits[figureOf(id).unit] : '',
      lower,
      upper,
      remark: none !== undefined ? figures.screen.none[none] : isFigure(id) ? figures.of[id].how : '',
    }),
  );
}

function lostRows({ lost }: Report): readonly Row[] {
  if (!lost) return [];
  const of = (what: string, value: number) => row('lost', what, { value, unit: units.cartons });
  return [
    of(file.lost.possible, lost.possible),
    of(file.lost.total, lost.total),
    ...lost.causes.map(({ cause, cartons }) => of(said.causes[cause], cartons)),
    of(file.lost.none, lost.none),
  ];
}

function stationRows({ stations }: Report): readonly Row[] {
  return stations.flatMap((one) => {
    const of = (what: string, cells: Cells) =>
      row('station', what, { where: stationSaid(one.station), unit: units.cartons, ...cells });
    const { kind, usual, perThousand, lower, upper, laid, lost } = one;
    const { inThousand, likely, estimate, more, thin, usual: usually, lost: lostHere } = file.stations;
    return [
      ...(kind === undefined
        ? []
        : [
            of(kind, { value: one.counted, remark: usual === undefined ? thin : usually(usual) }),
            of(inThousand(kind), {
              value: perThousand,
              unit: units.perThousand,
              lower,
              upper,
              remark: one.more ? more : '',
            }),
          ]),
      ...(laid === undefined ? [] : [of(likely, { value: Number(laid.toFixed(3)), remark: estimate })]),
      ...(lost === undefined ? [] : [of(lostHere, { value: lost })]),
    ];
  });
}

function faultRows({ stops: { rows, moreRows } }: Report): readonly Row[] {
  const of = (what: string, n: number, stood: number, where: Cell) =>
    row('byFault', what, { where, value: seconds(stood), unit: units.seconds, remark: file.stops(n) });
  return [
    ...rows.map(({ name, station, stops, stood }) =>
      of(name ?? said.stops.unknown, stops, stood, stationSaid(station)),
    ),
    ...(moreRows.rows > 0
      ? [of(file.rest.faults(moreRows.rows), moreRows.stops, moreRows.stood, undefined)]
      : []),
  ];
}

function stopRows({ stops: { list, more, carried } }: Report): readonly Row[] {
  return [
    ...(carried.stops === 0
      ? []
      : [
          row('stop', file.carried, {
            value: seconds(carried.stood),
            unit: units.seconds,
            remark: file.stops(carried.stops),
          }),
        ]),
    ...list.map((stop) =>
      row('stop', stop.name ?? said.stops.unknown, {
        where: stationSaid(stop.station),
        value: seconds(stop.lasted),
        unit: units.seconds,
        from: stop.at,
        to: stop.until,
        remark: joined([
          stop.endSeen || stop.until === undefined ? '' : file.endNotSeen,
          said.stops.chain(stop),
          stop.said ?? '',
        ]),
      }),
    ),
    ...rest('stop', file.rest.stops, more.stops, {
      value: seconds(more.stood),
      unit: units.seconds,
      remark: `${file.stops(more.stops)}; ${file.rest.remark}`,
    }),
  ];
}

function safetyRows(report: Report): readonly Row[] {
  const { list, uses, caused, ranOn, notExplained } = report.safety;
  const of = (what: string, value: number) =>
    row('safety', what, { value, unit: units.times, remark: said.safety.caution });
  return [
    of(file.safety.uses, uses),
    of(file.safety.caused, caused),
    of(file.safety.ranOn, ranOn),
    of(file.safety.notExplained, notExplained),
    ...list.map((use) => row('use', use.name, { from: use.at, remark: plain(said.safety.use(use, report)) })),
    ...rest('use', file.rest.uses, uses - list.length),
  ];
}

function changeoverRows(report: Report): readonly Row[] {
  const { changeovers, moreChangeovers } = report;
  return [
    ...changeovers.map((one) =>
      row('changeover', one.kind, {
        value: seconds(one.lasted),
        unit: units.seconds,
        from: one.at,
        ...(one.ends === 'goesOn' ? {} : { to: one.over }),
        remark: plain(said.changeovers.one(one, report)),
      }),
    ),
    ...rest('changeover', file.rest.changeovers, moreChangeovers),
  ];
}

function unseenRows({ unseen, moreUnseen }: Report): readonly Row[] {
  return [
    ...unseen.map(({ from, to }) =>
      row('unseen', '', { value: seconds(to - from), unit: units.seconds, from, to }),
    ),
    ...rest('unseen', file.rest.unseen, moreUnseen),
  ];
}

function noteRows({ notes, moreNotes, handedOver }: Report): readonly Row[] {
  return [
    ...notes.map((note) => row('note', note.words, { where: note.by, from: note.at })),
    ...rest('note', file.rest.notes, moreNotes),
    ...handedOver.map((one) =>
      row('handedOver', one.order, {
        value: one.handedOver,
        unit: units.cartons,
        remark: said.notes.handed(one),
      }),
    ),
  ];
}

function signatureRows(signatures: readonly Signature[]): readonly Row[] {
  return signatures.map(({ person, as, at, words }) =>
    row('signed', said.signed.line(as), { where: person, from: at, remark: words ?? '' }),
  );
}
