/**
 * Options with which much happens soon, for tests that watch a screen: within the first five minutes of machine time
 * somebody presses a stop device while it runs, holds it at loading without a reason, and a tuck jams.
 */
export const eventful = { seed: 138, lively: 12 } as const;
