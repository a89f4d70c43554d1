import type { LineFold } from '../../model/fold/fold.ts';
import { adjustmentsNow } from '../../model/past/adjustmentsNow.ts';
import type { Answered, Asked, Frame, Opened, ReplayWindow, Trouble } from '../../model/replay/asked.ts';
import { Replay } from '../../model/replay/replay.ts';
import { stationLanes } from '../../model/replay/stationLanes.ts';
import { windowView } from '../../model/replay/window.ts';
import { epochMs, type Instant, instantFromMs } from '../../model/units/units.ts';
import { viewOf } from '../../model/view/lineView.ts';
import type { Outside } from '../../model/view/seen.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { FetchedTape, Refused } from './fetchedTape.ts';

const said = wordsIn('en').screen.past.replay;

/** One replay of one stretch, beside the screen: it fetches, folds, and answers one question after another. */
const scope = self as unknown as {
  onmessage: ((message: MessageEvent<Asked>) => void) | null;
  postMessage: (answer: Answered) => void;
};
let replay: Replay | undefined;
let tape: FetchedTape | undefined;
let turn: Promise<void> = Promise.resolve();

scope.onmessage = ({ data }) => {
  turn = turn.then(() => answer(data));
};

async function answer(asked: Asked): Promise<void> {
  const { id } = asked;
  try {
    switch (asked.kind) {
      case 'open':
        return scope.postMessage({ kind: 'opened', id, opened: await open(asked) });
      case 'frame':
        return scope.postMessage({ kind: 'frame', id, frame: await frameOf(asked) });
      case 'window':
        return scope.postMessage({ kind: 'window', id, window: await windowOf(asked) });
      case 'step':
        return scope.postMessage({
          kind: 'step',
          id,
          at: await opened().step(asked.at, asked.by, asked.way),
        });
    }
  } catch (error) {
    scope.postMessage({ kind: 'failed', id, ...troubleOf(error) });
  }
}

/** What a person reads of it: trouble that somebody can mend as it is, a network that is away in words of our own. */
function troubleOf(error: unknown): Trouble {
  if (error instanceof Refused || error instanceof LineError)
    return { trouble: error.message, why: error.why, mend: error.mend };
  // what a browser throws where nobody answers
  if (error instanceof TypeError) return { trouble: said.noAnswer, why: undefined, mend: said.noAnswerMend };
  return { trouble: error instanceof Error ? error.message : String(error), why: undefined, mend: undefined };
}

function opened(): Replay {
  if (!replay) throw new Error('Mistake in Scoreline: a replay is asked before it is open');
  return replay;
}

async function open({ id, line, from, to }: Extract<Asked, { kind: 'open' }>): Promise<Opened> {
  const never = new AbortController().signal;
  tape = await FetchedTape.open(
    line,
    epochMs(from),
    epochMs(to),
    (path, signal) => fetch(path, { signal }),
    never,
  );
  const last = Math.min(to, instantFromMs(tape.stretch.now)) as Instant;
  replay = await Replay.open(tape, {
    line: tape.line,
    version: tape.stretch.version,
    from,
    to: last,
    start: tape.stretch.start,
    oldest: tape.oldest,
    progress: (share) => scope.postMessage({ kind: 'progress', id, share }),
  });
  return {
    from,
    to: last,
    begin: replay.begin,
    end: replay.end,
    whole: replay.whole,
    unheard: replay.unheard,
  };
}

async function frameOf({ at, as, station }: Extract<Asked, { kind: 'frame' }>): Promise<Frame> {
  const { fold, position } = await opened().at(at, as);
  const { index, state } = fold;
  const size = state.size === null ? undefined : index.sizeById.get(state.size)?.name;
  return {
    ...{ at, as, position, view: viewOf(fold, at, outsideOf(fold)) },
    adjustments: station === undefined ? undefined : { size, list: adjustmentsNow(index, state, station) },
  };
}

/** Of what comes in beside the tape only this is on it: whether a server was heard. */
function outsideOf({ index, state }: LineFold): Outside {
  return {
    servers: [...index.linkAt].map(([id, signal]) => ({ id, up: state.values[signal] !== false })),
  };
}

async function windowOf({ from, to, station }: Extract<Asked, { kind: 'window' }>): Promise<ReplayWindow> {
  const { fold } = await opened().apart(from, 'known');
  const changes = await opened().changes(from, to);
  const lanes = station === undefined ? undefined : stationLanes(fold, changes, { station, from });
  return { window: windowView(fold, changes, { from, to }), lanes };
}
