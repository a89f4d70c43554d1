import type { Loose, Strength } from './symptoms.ts';

/*
 * How likely things are before anything was seen, against one another, and how far what people wrote is believed (common practice,
 * no source). Set on simulated troubles that the judged ones are not among (`tests/proof/diagnosis`).
 */

/** Set wrongly at a changeover, for each adjustment that was moved then. With a sensor it is seen at once. */
export const MIS_SET = { unseen: 1, sensed: 0.5, notMoved: 0.1 } as const;
/** Moved since: each move that was recorded, and that it was moved with no record of it. */
export const MOVED = { recorded: 2, unrecorded: 0.5, unrecordedSensed: 0.03 } as const;
export const WORKED_LOOSE: Readonly<Record<Loose, number>> = { easily: 1.2, sometimes: 0.7, seldom: 0.2 };
/** A sensor that saw the drift, or did not. */
export const DRIFT = { seen: 6, notSeen: 0.4 } as const;
/** Knocked in one of the jams since the run began; they share it. */
export const KNOCKED = 0.5;
/** A cause that comes with a lot or a part: with each that was recorded, and with one that nobody told. */
export const COMES = { lot: { told: 2, untold: 0.25 }, part: { told: 2.5, untold: 0.15 } } as const;
/** One that wears, and one that breaks or bends at once. */
export const CREEPS = 0.7;
export const AT_ONCE = 0.55;
/** A lot or a part that came with the changeover comes with every changeover. */
export const CAME_WITH_RUN = 0.5;
/** Something that nobody wrote down: the more there is at a station, the more of it. */
export const SOMETHING_ELSE = { station: 0.3, adjustment: 0.18 } as const;
/** Nothing: so many stations are looked at so often that some have such a day. */
export const CHANCE = 0.8;

/** How much of a trouble shows so, against one another. */
export const SHARE_OF: Readonly<Record<Strength, number>> = { often: 4, sometimes: 2, seldom: 0.65 };
export const UNNAMED = 0.12;
/** By a reason of other stations, that is not named for it. */
export const UNNAMED_ELSEWHERE = 0.02;
/** As many cartons or stops as the file's shares are worth: more would be believing it too much. */
export const FILE_WORTH = 6;
/** The same for the usual shares of reasons. */
export const USUAL_WORTH = 90;
/** For what people say they see; so much of it is mistaken. */
export const SAID_WORTH = 5;
export const SAID_WRONGLY = 0.25;

/** Rejects and stops come in clumps: so many of them tell as much as one alone would. */
export const CLUMP = 1.6;
/** The shape of the levels of runs where too few were seen to know. */
export const ALIKE_UNKNOWN = 5;

/** A reading that says nothing of where it stands: misread, mistyped, a sensor that slips, a tap without a look. */
export const READ_WRONGLY = { sensor: 0.04, typedNow: 0.05, typedThen: 0.2, confirmed: 0.75 } as const;
/** How exactly it is read, and how exactly it is set where all is well, in parts of `shows`. */
export const READ_TO = { sensor: 0.06, eye: 0.2 } as const;
export const SET_TO = 0.35;
/** By how much hands move it that do no harm. */
export const MOVED_BY = 0.5;
/** How far a deviation may be from what its cost says, as the standard deviation of its logarithm. */
export const COST_KNOWN = 0.35;
export const COST_UNKNOWN = 0.65;
