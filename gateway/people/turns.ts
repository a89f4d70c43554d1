import { tooBusy } from './refusals.ts';

/** Lets one after another do what takes a lot of memory; so many wait at most, and the next is refused with words. */
export function createTurns(waitingMost: number): <Result>(act: () => Promise<Result>) => Promise<Result> {
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;
  return async (act) => {
    if (waiting >= waitingMost) throw tooBusy();
    waiting += 1;
    const turn = last.then(act).finally(() => {
      waiting -= 1;
    });
    // the next one begins whatever becomes of this one, whose trouble goes to who asked
    last = turn.then(
      () => undefined,
      () => undefined,
    );
    return turn;
  };
}
