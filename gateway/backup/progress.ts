/** Long work that can be ended on its way, and tells how far it is. */
export interface Work {
  readonly stopping: AbortSignal;
  /** `what` it is at, and how much of that is done, 0 to 1. */
  readonly progress: (what: string, share: number) => void;
}
