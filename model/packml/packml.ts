/** The machine states of PackML (ISA-TR88.00.02; names and numbers as in OPC 30050, property StateNumber). */
export type PackmlState =
  | 'Clearing'
  | 'Stopped'
  | 'Starting'
  | 'Idle'
  | 'Suspended'
  | 'Execute'
  | 'Stopping'
  | 'Aborting'
  | 'Aborted'
  | 'Holding'
  | 'Held'
  | 'Unholding'
  | 'Suspending'
  | 'Unsuspending'
  | 'Resetting'
  | 'Completing'
  | 'Complete';

/** Numbering of OPC 30050 (packaging machines). */
export const opc30050: ReadonlyMap<number, PackmlState> = new Map([
  [1, 'Clearing'],
  [2, 'Stopped'],
  [3, 'Starting'],
  [4, 'Idle'],
  [5, 'Suspended'],
  [6, 'Execute'],
  [7, 'Stopping'],
  [8, 'Aborting'],
  [9, 'Aborted'],
  [10, 'Holding'],
  [11, 'Held'],
  [12, 'Unholding'],
  [13, 'Suspending'],
  [14, 'Unsuspending'],
  [15, 'Resetting'],
  [16, 'Completing'],
  [17, 'Complete'],
]);

/** Numbering of OPC 30060 (tobacco machines): the same names, other numbers. */
export const opc30060: ReadonlyMap<number, PackmlState> = new Map([
  [0, 'Stopped'],
  [1, 'Resetting'],
  [2, 'Idle'],
  [3, 'Starting'],
  [4, 'Execute'],
  [5, 'Completing'],
  [6, 'Complete'],
  [7, 'Aborting'],
  [8, 'Aborted'],
  [9, 'Stopping'],
  [10, 'Clearing'],
  [11, 'Suspending'],
  [12, 'Suspended'],
  [13, 'Unsuspending'],
  [14, 'Holding'],
  [15, 'Held'],
  [16, 'Unholding'],
]);
