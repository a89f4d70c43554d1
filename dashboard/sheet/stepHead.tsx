import type { EpochMs } from '../../model/units/units.ts';
import type { BookThen } from '../../model/view/sheetKept.ts';
import type { NumberStep, SheetStep, SheetView } from '../../model/view/sheetView.ts';
import type { FigureId } from '../../model/figures/figures.ts';
import { Figure } from '../figures/figure.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { words } from '../app/words.ts';
import { Carton } from '../marks/symbols.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { SheetScale, Wheel } from './drawn.tsx';
import { useNetwork } from './here.ts';
import { usePositionName } from '../entries/names.ts';

const said = words.screen.sheet;

/** Which one it is: the carton as it looks at the station, the number, the name. */
export function StepHead({ step, width }: { readonly step: SheetStep; readonly width: number }) {
  const { station } = step;
  return (
    <div className={station ? 'stephead' : 'stephead nowhere'}>
      {station && <Carton drawing={station.drawing} width={width} />}
      <h2>
        {step.kind === 'number' && <span className="no">{step.id}</span>}
        <b>{step.name}</b>
        <small>{station ? `${station.number} ${station.name}` : said.all.noStation}</small>
      </h2>
    </div>
  );
}

interface SetProps {
  readonly step: NumberStep;
  readonly sheet: SheetView;
  /** [SH8] The moment that the numbers are from, where the gateway has not answered since. */
  readonly asOf: EpochMs | undefined;
}

/** How to set it: the scale, which way, against the play, the clamp; and three numbers. */
export function HowToSet({ step, sheet, asOf }: SetProps) {
  const turn = said.turn(step);
  return (
    <>
      <div className="stepscale">
        <SheetScale step={step} />
        <div className={step.way?.turn ? 'stepway turned' : 'stepway'}>
          {step.way?.turn && <Wheel clockwise={step.way.turn.clockwise} />}
          <p>
            <b>{turn ?? said.goes(step)}</b>
            {said.how(step).join(' ')}
          </p>
        </div>
      </div>
      <Three step={step} sheet={sheet} asOf={asOf} />
    </>
  );
}

/** The book, where it ran at last, and where it was. */
function Three({ step, sheet, asOf }: SetProps) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const { book, ranAt, was } = step;
  const shown = (value: number | undefined, of: FigureId) =>
    value === undefined ? said.none : <Figure of={of}>{said.number(value, step)}</Figure>;
  return (
    <dl className="threenumbers">
      <div>
        <dd>{shown(book, 'adjustmentBook')}</dd>
        <dt>{book === undefined ? said.noBook : said.book(sheet.size.name, asOf, zone)}</dt>
      </div>
      <div>
        <dd>{shown(ranAt?.value, 'adjustmentReading')}</dd>
        <dt>{said.ran(step, clock, zone)}</dt>
      </div>
      <div>
        <dd>{shown(was?.value, 'adjustmentReading')}</dd>
        <dt>{said.was(sheet, step)}</dt>
      </div>
    </dl>
  );
}

/** What was entered for a step, by whom and when; and that it is only kept here. */
export function StepSaid({ step, isKept }: { readonly step: SheetStep; readonly isKept: boolean }) {
  const { zone } = usePart('line');
  const position = usePositionName();
  if (step.done === undefined) return null;
  return (
    <p className={isKept ? 'stepsaid kept' : 'stepsaid'} role="status">
      <Rich text={said.said(step.done, step, zone, position)} />
      {isKept && `, ${said.keptHere}`}
      {step.kind !== 'number' && !step.done.well && `. ${said.stays}`}
    </p>
  );
}

/** [SH8] The book says another number than the screen showed when the sheet was begun without a network. */
export function BookChanged({
  step,
  bookThen,
}: {
  readonly step: NumberStep;
  readonly bookThen: BookThen | undefined;
}) {
  const { zone } = usePart('line');
  if (bookThen === undefined) return null;
  const books: readonly Numbered[] = [bookThen.book, step.book].flatMap((book): Numbered[] =>
    book === undefined ? [] : [['adjustmentBook', said.number(book, step)]],
  );
  return (
    <p className="stepsaid bookchanged" role="status">
      <Rich text={said.ahead.other(step, bookThen, zone)} of={books} />
    </p>
  );
}

/** How it is known now where it stands. */
export function StepKnown({ step }: { readonly step: NumberStep }) {
  const { isGone } = useNetwork();
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const read: readonly Numbered[] =
    step.now === undefined ? [] : [['adjustmentReading', said.number(step.now.value, step)]];
  return (
    <p className="stepknown">
      <Rich text={said.known(step, clock, zone, isGone)} of={read} />{' '}
      {step.sensor === 'reads' && !isGone && (step.sensed ? said.sensor.done : said.sensor.turn)}
    </p>
  );
}
