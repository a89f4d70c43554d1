/**
 * What the estimator takes for usual before it sees anything, all lengths in widths of an adjustment (about so far off a
 * station's risk is twice its least). Fitted on the worlds that it was made on (`tests/proof/setpoints/`), never on those that judge it.
 */
export const WEIGHTS = {
  /** Chance that somebody moves what is right, and what is far off; and from where on, about. */
  movesLeast: 0.08,
  movesMost: 0.85,
  movesFrom: 0.5,
  movesWithin: 0.25,
  /** Standard deviations of what is moved about what is right, where it was moved well, and in the share where it was not. */
  movedTo: 0.33,
  movedWrong: 1.5,
  movedWrongShare: 0.15,
  /** Of what was left, so much is read back and told as it was read. */
  readAgain: 0.25,
  /** One tap says that it was left, this much as surely as a number that is typed. */
  tappedTrue: 0.2,
  /** As many looks as one over this say no more than half of what they would if nothing were common to them. */
  looksAlike: 0.07,
  /** How far books are off: what is a scale's own for all sizes, and a size's own. */
  offShared: 0.35,
  offOwn: 0.45,
  /** Standard deviations of where it stands about what is known. */
  standsAbout: { sensor: 0.1, left: 0.33, moved: 0.2, confirmed: 0.5, unknown: 0.9 },
  /** How far lots move what is best. */
  lotMoves: 0.3,
  /** How far a number that is followed is missed. */
  followedWith: 0.3,
  /** Beyond so many widths what being off adds grows straight on instead of by its square. */
  straightFrom: 1.8,
  /** What being off by a width adds to one, and the spread of its logarithm. */
  sizeOwn: 1,
  sizeOther: 0.15,
  sizeSpread: 1,
  /** Logarithm of how much more it is to one side than to both. */
  tiltSpread: 0.8,
  runSpread: 0.3,
  groupSpread: 0.2,
  trendSpread: 0.25,
  /** A width by the scale's step, and by how far settings lie about the middle. */
  widthByTenth: 1.1,
  widthBySpread: 1.5,
  widthRuns: 8,
  /** Ranges of nine in ten are so many times as long as the chain has them. */
  rangeTimes: 1.2,
};
