import type { OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import type { ChangeoverStrip } from '../../model/past/changeoverStrip.ts';
import { words } from '../app/words.ts';
import { Measured } from '../past/measured.tsx';
import { Figure } from '../figures/figure.tsx';
import { Line, Rich } from '../type/line.tsx';
import { measure } from '../type/measure.ts';
import { Phases } from './phases.tsx';
import { Pips, Slot } from './slots.tsx';
import { MovedTabs } from './tabs.tsx';

const { past } = words.screen;
const said = past.changeovers;

const HEIGHT = 110;
const ROW = 20;
const TYPE = 14;
const MINUTE_MS = 60_000;
/** Stops named below the strip; the others are in the Stops screen. */
const NAMED = 8;
/** Minutes of its table. */
const TABLE_MOST = 60;

/** The strip again: board of the old size, cut-out, board of the new; its phases hang under it as long as they lasted. */
export function OpenedStrip({ opened, zone }: { readonly opened: OpenedChangeover; readonly zone: string }) {
  const { strip } = opened;
  const stops = strip.slots.filter(({ kind }) => kind === 'stopped');
  return (
    <section className="sheet changeoverstrip">
      <h2>{said.strip.title}</h2>
      <Measured className="drawn">
        {(width) => <Drawing opened={opened} zone={zone} width={width} />}
      </Measured>
      {movedOf(opened) > 0 && (
        <ul className="pastkey">
          <TabKey said={said.changed.key.moved} />
          <TabKey said={said.changed.key.again} isAgain />
        </ul>
      )}
      <Phases opened={opened} />
      {stops.length > 0 && (
        <p className="second">
          <b>{said.strip.stops}</b>
          {stops.slice(0, NAMED).map((slot) => (
            <span key={slot.from}>
              <Rich text={said.strip.stop(slot, zone)} of={[['stood', past.lasted(slot.to - slot.from)]]} />:{' '}
              {said.strip.slot(slot)}
            </span>
          ))}
          {stops.length > NAMED && <span>{past.stops.more(stops.length - NAMED)}</span>}
        </p>
      )}
      <details className="noprint">
        <summary>{said.curves.table}</summary>
        <table>
          <thead>
            <tr>
              <th>{said.strip.columns.at}</th>
              <th className="n">
                <Figure of="rate">{said.strip.columns.rate}</Figure>
              </th>
            </tr>
          </thead>
          <tbody>
            {strip.board.slice(0, TABLE_MOST).map(({ from, rate }) => (
              <tr key={from}>
                <td>{past.exactly(from, zone)}</td>
                <td className="n">{past.count(Math.round(rate))}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}

const movedOf = ({ numbers: { told, toBook } }: OpenedChangeover) => told.length + toBook.length;

interface Label {
  readonly at: number;
  readonly text: string;
  readonly width: number;
}

function Drawing({
  opened,
  zone,
  width,
}: {
  readonly opened: OpenedChangeover;
  readonly zone: string;
  readonly width: number;
}) {
  const { strip, changeover } = opened;
  const x = (at: number) => (width * (at - strip.from)) / (strip.to - strip.from);
  const labels = placed(labelsOf(opened, zone), x, width);
  const top = ROW * Math.max(1, ...labels.map(({ row }) => row + 1)) + 26;
  const floor = top + HEIGHT;
  const y = (rate: number) => floor - (HEIGHT * Math.min(rate, strip.rateMax)) / strip.rateMax;
  const target = y(changeover.target);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset
    <svg
      viewBox={`0 0 ${width} ${floor + 26}`}
      role="group"
      aria-label={said.strip.drawn(strip, zone)}
      className="board"
    >
      <path className="made" d={boardOf(strip, x, y, floor)} />
      <path className="rate" d={rateOf(strip, x, y)} />
      {strip.slots.map((slot) => (
        <Slot key={`${slot.kind} ${slot.from}`} slot={slot} x={x} top={top} floor={floor} />
      ))}
      <Pips slots={strip.slots} x={x} top={top} />
      {changeover.target > 0 && (
        <>
          <path className="scoreline" d={`M${x(changeover.at)} ${target}H${width}`} />
          <Line
            x={x(changeover.at) + 6}
            y={target - 5}
            size={13}
            tone="ink2"
            of={[['target', past.count(changeover.target)]]}
          >
            {said.strip.target(changeover.target)}
          </Line>
        </>
      )}
      {labels.map(({ at, text, row, left }) => (
        <g key={text}>
          <path className="cutline" d={`M${x(at)} ${row * ROW + 18}V${floor}`} />
          <Line x={left} y={row * ROW + 13} size={TYPE}>
            {text}
          </Line>
        </g>
      ))}
      <path className="floor" d={`M0 ${floor}H${width}`} />
      <MovedTabs numbers={opened.numbers} x={x} floor={floor} width={width} />
      {ticksOf(strip, width).map((at) => (
        <g key={at}>
          <path className="cutline thin" d={`M${x(at)} ${floor}v5`} />
          <Line x={x(at)} y={floor + 19} size={13} tone="ink2" anchor="middle">
            {past.at(at, zone)}
          </Line>
        </g>
      ))}
    </svg>
  );
}

function labelsOf({ changeover }: OpenedChangeover, zone: string): readonly Label[] {
  const { at, trialBegan, firstGood, over, ends } = changeover;
  const label = (
    moment: number | undefined,
    say: (at: number, zone: string) => readonly [string, string],
  ) => {
    if (moment === undefined) return [];
    const text = `**${say(moment, zone)[0]}** ${say(moment, zone)[1]}`;
    return [{ at: moment, text, width: measure(text, TYPE) }];
  };
  return [
    ...label(at, said.strip.began),
    ...label(trialBegan, said.strip.trial),
    ...label(firstGood, said.strip.firstGood),
    ...label(ends === 'atRate' ? over : undefined, said.strip.atRate),
  ];
}

/** Each label in the first row with room for it, to the right of its moment or, at the right edge, to the left. */
function placed(labels: readonly Label[], x: (at: number) => number, width: number) {
  const ends: number[] = [];
  return labels.map((label) => {
    const left = Math.max(0, Math.min(x(label.at) + 2, width - label.width));
    const free = ends.findIndex((end) => end + 12 <= left);
    const row = free < 0 ? ends.length : free;
    ends[row] = left + label.width;
    return { ...label, row, left };
  });
}

/** What was made: pieces of whole minutes, joined where nothing lies between them. */
function boardOf(
  { board }: ChangeoverStrip,
  x: (at: number) => number,
  y: (rate: number) => number,
  floor: number,
): string {
  return board.map(({ from, to, rate }) => `M${x(from)} ${floor}V${y(rate)}H${x(to)}V${floor}Z`).join('');
}

function rateOf({ board }: ChangeoverStrip, x: (at: number) => number, y: (rate: number) => number): string {
  return board
    .map(({ from, to, rate }, place) => {
      const joins = board[place - 1]?.to === from;
      return `${joins ? 'L' : 'M'}${x(from)} ${y(rate)}H${x(to)}`;
    })
    .join('');
}

/** Whole minutes with room for their words. */
function ticksOf({ from, to }: ChangeoverStrip, width: number): readonly number[] {
  const steps = [1, 2, 5, 10, 15, 30, 60, 120, 360, 720, 1440];
  const room = Math.max(1, Math.floor(width / 64));
  const step = (steps.find((one) => (to - from) / (one * MINUTE_MS) <= room) ?? 2880) * MINUTE_MS;
  const all: number[] = [];
  for (let at = Math.ceil(from / step) * step; at <= to; at += step) all.push(at);
  return all.filter((at) => at - from > (to - from) * 0.02 && to - at > (to - from) * 0.02);
}

/** What a tab on the strip means. */
function TabKey({ said: means, isAgain = false }: { readonly said: string; readonly isAgain?: boolean }) {
  return (
    <li>
      <svg width={12} height={16} aria-hidden="true">
        <path className={isAgain ? 'tab again' : 'tab'} d="M2 0h8v11l-2 4h-4l-2-4Z" />
      </svg>
      {means}
    </li>
  );
}
