import type { FigureId } from '../figures/figures.ts';
import type { FigureWords } from './english-figures-output.ts';

/** What is estimated of a station, in words. */
export const stationFigures = {
  rejectsLaid: {
    name: 'rejects as they are likely',
    what: 'How many rejects a station may have spoiled. The check tells a reason only, so each reject is laid to stations in shares, and what cannot be told to nobody.',
    how: 'for each reject: how likely each station was before, from what was laid to it lately, times what was seen there in that carton’s machine cycle: near misses, stops with the carton in it, hands in the machine, moved adjustments; whole thousandths that add up to the rejects',
  },
  unattributed: {
    name: 'laid to nobody',
    what: 'The share of the rejects for which nothing tells a station.',
    how: 'what is left of each reject after its shares; more of it where several came at once, after a gap, or where hands were in the machine',
  },
  rejectsAgainstRuns: {
    name: 'rejects since the changeover, against earlier runs',
    what: 'Whether the station has rejected more in this run than its runs of the same size differ by.',
    how: 'the count of the run against what earlier runs of the size make likely for as many cartons, their level and its spread both averaged over what those runs leave possible; looked at once a batch, the wanted rarity shared out over the looks',
  },
  rejectsDrift: {
    name: 'slow drift of rejects',
    what: 'Whether the station rejects more and more within this run.',
    how: 'a running sum of what each batch has beyond a reference between the usual and twice as much (a CUSUM); the usual is what the run began with and its earlier runs tell; its limit follows from the wanted rate of false calls, batch by batch',
  },
  stopsAgainstRuns: {
    name: 'stops since the changeover, against earlier runs',
    what: 'Whether the station has stopped the line more often, for as many cartons, than its runs of the same size differ by.',
    how: 'stops of the run for the cartons made, re-jams as one, against what earlier runs of the size make likely, their level and its spread both averaged over what those runs leave possible',
  },
  earlierRuns: {
    name: 'earlier runs',
    what: 'How many runs with this size the station is held against.',
    how: 'stretches in which the size ran before this one and of which whole batches were seen',
  },
  heldRate: {
    name: 'before and after a change',
    what: 'How many stops, or rejects, came at the station for a thousand cartons, in whole runs before a change and after it.',
    how: 'first tries of stops as known now, or what is charged to the station, over the cartons at discharge of those runs; compared within the same size and crew only, by an exact permutation of runs',
  },
  heldRuns: {
    name: 'runs before and after a change',
    what: 'How many whole runs a change is judged by; where lots of board are told, of how many lots.',
    how: 'stretches in which one size ran, without the one in which the change was made and the one before it',
  },
  batches: {
    name: 'batches',
    what: 'How many batches there are, how many of them lie above their line, and how many cartons are in none.',
    how: 'a batch is the first whole minutes of a run that bring 300 cartons or more; what is left at a run’s end or lies beside time not seen is in none',
  },
  batchRejects: {
    name: 'rejects of a batch',
    what: 'What was charged to the station among the cartons of one batch.',
    how: 'what its counters gained in the whole minutes of the batch',
  },
  adjustmentBook: {
    name: 'book number',
    what: 'Where a numbered adjustment is to stand for a size.',
    how: 'the number that a person approved last for the size; without one, the one of the line’s file',
  },
  adjustmentOff: {
    name: 'off the book',
    what: 'How far an adjustment stands from its book number. What is right for a size it does not say.',
    how: 'where the adjustment stands − book number, as far as that is known',
  },
  aroundReading: {
    name: 'what a signal read around a stop',
    what: 'What the PLC told of it from ten seconds before the stop began to ten seconds after it.',
    how: 'every value in that time by the PLC’s stamps, as known now; of a counter how often it moved, of a measured value the least and the most',
  },
  normalRange: {
    name: 'normal range of a condition',
    what: 'Between what a measured value lies when all is well.',
    how: 'from the line’s file',
  },
} as const satisfies Partial<Record<FigureId, FigureWords>>;
