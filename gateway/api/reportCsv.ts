import { figureOf } from '../../model/figures/figures.ts';
import type { Report, Signature } from '../../model/report/report.ts';
import { wordsIn } from '../../model/words/words.ts';
import { csvText, isoMoment, typedText } from './csvText.ts';

const { report: said, figures } = wordsIn('en').screen.past;

type Row = readonly [
  part: string,
  what: string,
  where: string,
  value: string,
  unit: string,
  lower: string,
  upper: string,
  remark: string,
];

/** A report as a file: one number a row, with its unit and where it belongs. Not known is empty. */
export function reportCsv(report: Report, signatures: readonly Signature[]): string {
  return csvText([
    said.columns,
    ...about(report),
    ...figureRows(report),
    ...lostRows(report),
    ...stationRows(report),
    ...stopRows(report),
    ...otherRows(report),
    ...signatureRows(report, signatures),
  ]);
}

const number = (value: number | undefined) => (value === undefined ? '' : String(value));
const row = (
  part: string,
  what: string,
  rest: Partial<Record<'where' | 'value' | 'unit' | 'lower' | 'upper' | 'remark', string>>,
): Row => [
  part,
  what,
  rest.where ?? '',
  rest.value ?? '',
  rest.unit ?? '',
  rest.lower ?? '',
  rest.upper ?? '',
  rest.remark ?? '',
];

function about(report: Report): readonly Row[] {
  const { line, from, to, zone, model, position, made, sizes } = report;
  return [
    row('report', said.title(report), { where: line.name, remark: said.lead(report) }),
    row('report', 'from', { value: isoMoment(from, zone) }),
    row('report', 'to', { value: isoMoment(to, zone) }),
    row('report', 'sizes', { value: sizes.join(', ') }),
    row('report', 'made', { value: isoMoment(made, zone), remark: `model ${model}, tape up to ${position}` }),
  ];
}

function figureRows({ figures: values }: Report): readonly Row[] {
  return values.map(({ id, value, lower, upper, none }) =>
    row('figure', figures.of[id].name, {
      value: number(value),
      unit: figures.screen.fileUnits[figureOf(id).unit],
      lower: number(lower),
      upper: number(upper),
      remark: none === undefined ? figures.of[id].how : figures.screen.none[none],
    }),
  );
}

function lostRows({ lost }: Report): readonly Row[] {
  if (!lost) return [];
  return lost.causes.map(({ cause, cartons }) =>
    row('cartons lost', said.causes[cause], { value: String(cartons), unit: 'cartons' }),
  );
}

function stationRows({ stations }: Report): readonly Row[] {
  return stations.flatMap(
    ({ station, kind, counted, usual, lower, upper, perThousand, laid, lost, more }) => {
      const where = `${station.number} ${station.name}`;
      return [
        ...(kind === undefined
          ? []
          : [
              row('station', kind, {
                where,
                value: String(counted),
                unit: 'cartons',
                remark: usual === undefined ? said.stations.usual(undefined) : `usual ${usual.toFixed(1)}`,
              }),
              row('station', `${kind} in 1,000`, {
                where,
                value: number(perThousand),
                unit: 'in 1,000',
                lower: number(lower),
                upper: number(upper),
                remark: more ? 'more than its runs differ by' : '',
              }),
            ]),
        ...(laid === undefined
          ? []
          : [
              row('station', 'rejects as they are likely', {
                where,
                value: laid.toFixed(3),
                unit: 'cartons',
                remark: 'an estimate',
              }),
            ]),
        ...(lost === undefined
          ? []
          : [row('station', 'cartons lost', { where, value: String(lost), unit: 'cartons' })]),
      ];
    },
  );
}

function stopRows({ stops, zone }: Report): readonly Row[] {
  const seconds = (ms: number) => (ms / 1000).toFixed(1);
  return [
    ...stops.rows.map(({ name, station, stops: n, stood }) =>
      row('stops by first fault', name ?? said.stops.unknown, {
        where: station === undefined ? '' : `${station.number} ${station.name}`,
        value: seconds(stood),
        unit: 's',
        remark: `${n} stops`,
      }),
    ),
    ...stops.list.map((stop) =>
      row('stop', stop.name ?? said.stops.unknown, {
        where: stop.station === undefined ? '' : `${stop.station.number} ${stop.station.name}`,
        value: seconds(stop.lasted),
        unit: 's',
        lower: isoMoment(stop.at, zone),
        upper: stop.until === undefined ? '' : isoMoment(stop.until, zone),
        remark: typedText([said.stops.chain(stop), stop.said ?? ''].filter((part) => part !== '').join('; ')),
      }),
    ),
  ];
}

function otherRows(report: Report): readonly Row[] {
  const { safety, changeovers, unseen, notes, handedOver, zone } = report;
  const plain = (text: string) => text.replaceAll('**', '');
  return [
    ...safety.list.map((use) =>
      row('use of a stop device', use.name, {
        lower: isoMoment(use.at, zone),
        remark: plain(said.safety.use(use, report)),
      }),
    ),
    row('safety', 'open or pressed while it ran', {
      value: String(safety.ranOn),
      unit: 'times',
      remark: said.safety.caution,
    }),
    ...changeovers.map((one) =>
      row('changeover', one.kind, {
        value: (one.lasted / 1000).toFixed(1),
        unit: 's',
        lower: isoMoment(one.at, zone),
        remark: plain(said.changeovers.one(one, report)),
      }),
    ),
    ...unseen.map((gap) =>
      row('not seen', '', {
        value: ((gap.to - gap.from) / 1000).toFixed(1),
        unit: 's',
        lower: isoMoment(gap.from, zone),
        upper: isoMoment(gap.to, zone),
      }),
    ),
    ...notes.map((note) =>
      row('note', typedText(note.words), { where: note.by, lower: isoMoment(note.at, zone) }),
    ),
    ...handedOver.map((one) =>
      row('handed over', one.order, {
        value: String(one.handedOver),
        unit: 'cartons',
        remark: said.notes.handed(one),
      }),
    ),
  ];
}

function signatureRows({ zone }: Report, signatures: readonly Signature[]): readonly Row[] {
  return signatures.map(({ person, as, at, words }) =>
    row('signed', said.signed.line(as), {
      where: typedText(person),
      lower: isoMoment(at, zone),
      remark: typedText(words ?? ''),
    }),
  );
}
