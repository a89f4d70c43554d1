import type { CauseAnswer, DiagnosisAnswer } from '../../model/diagnosis/diagnosisAnswer.ts';
import { SYMPTOMS } from '../../model/diagnosis/symptoms.ts';
import type { DiagnosisTold } from '../../model/diagnosis/told.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, usePart } from '../store/use.tsx';

const said = words.screen.diagnosis;
const { explains } = words.screen.past.stations;

/** How often it is worked out again. */
const AGAIN_MS = 30_000;
/** Once something was entered it is asked for again after so long. */
const SOON_MS = 1_200;
/** Below this, what somebody sees tells nothing more. Bits. */
const TELLS_LEAST = 0.1;

/** What may explain the trouble of a station: causes ranked, each with what speaks for it and against it. */
export function Explains({ station, zone }: { readonly station: string; readonly zone: string }) {
  const line = usePart('line').id;
  const asked = useAsked<DiagnosisTold>(
    `/api/lines/${encodeURIComponent(line)}/past/stations/${encodeURIComponent(station)}/diagnosis`,
    AGAIN_MS,
  );
  const told = asked.data;
  return (
    <section className="sheet explains" aria-labelledby="explains">
      <h2 id="explains">{said.title}</h2>
      {told?.kind === 'told' ? (
        <Told
          answer={told.diagnosis}
          station={station}
          zone={zone}
          again={() => setTimeout(asked.again, SOON_MS)}
        />
      ) : (
        <p>{told ? explains[told.kind] : explains.asking}</p>
      )}
    </section>
  );
}

function Told({
  answer,
  station,
  zone,
  again,
}: {
  readonly answer: DiagnosisAnswer;
  readonly station: string;
  readonly zone: string;
  readonly again: () => void;
}) {
  const [first, then] = said.lead(answer);
  return (
    <>
      <p className="second">{said.trouble(answer, zone)}</p>
      <p className="says">
        <b>{first}</b> {then}
      </p>
      {answer.looksTell >= TELLS_LEAST && <Looks station={station} again={again} />}
      <ol className="causes">
        {answer.causes.map((cause) => (
          <Cause key={cause.key} cause={cause} zone={zone} />
        ))}
        <li className="dontknow">
          <b>{said.dontKnow}</b> <span>{said.odds(answer.dontKnow.chance)}</span>
        </li>
      </ol>
      {answer.unlikely > 0 && <p className="second">{said.unlikely(answer.unlikely)}</p>}
      <p className="foot">{said.knowledge}</p>
    </>
  );
}

/** How spoiled cartons look: one tap, by whoever stands there. */
function Looks({ station, again }: { readonly station: string; readonly again: () => void }) {
  const enter = useEnter();
  return (
    <div className="looks noprint">
      <p>{said.ask}</p>
      <NeedsLogIn act="reason" />
      <div className="keys">
        {SYMPTOMS.map((symptom) => (
          <button
            key={symptom}
            type="button"
            className="btn plain"
            onClick={() => {
              enter({ kind: 'looked', station, symptom });
              again();
            }}
          >
            {said.symptoms[symptom]}
          </button>
        ))}
      </div>
    </div>
  );
}

function Cause({ cause, zone }: { readonly cause: CauseAnswer; readonly zone: string }) {
  const { adjustment, evidence, moves } = cause;
  return (
    <li>
      <b>{said.cause(cause)}</b> <span>{said.odds(cause.chance)}</span>
      <span className="way">{said.way(cause)}</span>
      <ul className="evidence">
        {evidence.map((one) => (
          <li key={one.kind} className={one.speaks}>
            <i>{said.speaks[one.speaks]}</i> {said.evidence(one, cause, zone)}
          </li>
        ))}
        {adjustment &&
          moves.map((move) => (
            <li key={move.at} className="moved">
              {said.move(move, adjustment, zone)}
            </li>
          ))}
      </ul>
    </li>
  );
}
