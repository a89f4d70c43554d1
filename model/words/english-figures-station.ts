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
} as const satisfies Partial<Record<FigureId, FigureWords>>;
