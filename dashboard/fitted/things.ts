import type { FittedView } from '../../model/view/fittedView.ts';
import { useEnter, usePart } from '../store/use.tsx';

/** What a part's step of a changeover names: undefined where the line names none. */
export function useThingOf(step: string): FittedView | undefined {
  return usePart('fitted').find((one) => one.step === step);
}

/** Says which it is from now on; in the sheet that is open its step is done with that. */
export function useNaming(sheet?: string): (thing: FittedView, name: string) => void {
  const enter = useEnter();
  return ({ what, step }, name) =>
    enter({
      ...{ kind: 'fitted', what, name },
      ...(step === undefined ? {} : { step }),
      ...(sheet === undefined ? {} : { sheet }),
    });
}
