import type { FigureId } from '../figures/figures.ts';
import type { FigureWords } from './english-figures-output.ts';

/** What runs teach of the numbered adjustments of a size, in words. */
export const setPointFigures = {
  setPointSum: {
    name: 'adjustments by how they stand',
    what: 'How many numbered adjustments stand off their book number, or are known in one way only.',
    how: 'a count of the adjustments that the line’s file names',
  },
  setPointRuns: {
    name: 'runs that tell of an adjustment',
    what: 'How many runs of the size tell what an adjustment did there.',
    how: 'stretches in which the size ran at rate and of which it is known where the adjustment stood; a run counts once, however long',
  },
  setPointSettings: {
    name: 'different settings',
    what: 'At how many different numbers an adjustment stood in those runs.',
    how: 'distinct numbers to the decimals of the scale, under one datum or brought to it by an engineer’s offset',
  },
  setPointLots: {
    name: 'board lots',
    what: 'How many lots of board those runs had.',
    how: 'names of lots that the PLC told or people entered; runs without one count for none',
  },
  setPointCartons: {
    name: 'cartons of those runs',
    what: 'How many cartons came in the runs that are looked at.',
    how: 'what the counters gained while nothing moved that acts on the station; trial cartons are left out',
  },
  setPointRejects: {
    name: 'rejects between runs',
    what: 'How many rejects in a thousand cartons the stations have that an adjustment acts on.',
    how: 'the mean of the runs’ own rates; its interval, 95 %, from how the runs differ and never from their cartons alone; none for a single run',
  },
  setPointRunStops: {
    name: 'stops of a run',
    what: 'How often the stations that an adjustment acts on stopped the line while it stood there.',
    how: 'their own stops, tries right after a restart as one, in whole stretches in which it did not move',
  },
  setPointRecommended: {
    name: 'recommended number',
    what: 'The number that an adjustment should have for a size, as its runs teach.',
    how: 'the number on the scale with the least cartons lost to expect, over all that the runs leave possible; other adjustments and lots accounted for. A person approves it or does not',
  },
  setPointLikely: {
    name: 'likely range of the best number',
    what: 'Between which numbers the best one lies in nine of ten cases.',
    how: 'what the runs leave possible, without the twentieth at either end; how often it holds the best number was measured on invented machines',
  },
  setPointRanWell: {
    name: 'settings that ran well',
    what: 'From which to which number it ran without more rejects or stops than is usual at the station.',
    how: 'settings of runs at rate that were no worse than the station’s own normal',
  },
  setPointCost: {
    name: 'cost of another number',
    what: 'How many cartons a usual run loses at another number than the recommended one.',
    how: 'rejects and stops to expect there, less those at the recommended number, in cartons of a usual run; shown where it was tried and a little beyond',
  },
  setPointTeaches: {
    name: 'change that teaches most',
    what: 'Which small change would narrow the likely range most.',
    how: 'the nearest number on the scale for which the runs leave most open what it does; a question to the machine, and no advice',
  },
  setPointScale: {
    name: 'scale of an adjustment',
    what: 'From which to which number the scale on the machine goes.',
    how: 'from the line’s file',
  },
  datumOffset: {
    name: 'offset between two datums',
    what: 'What has to be added to a number from before, to have the same place under the newer datum.',
    how: 'as an engineer measured and entered it; without it nothing from before counts',
  },
} as const satisfies Partial<Record<FigureId, FigureWords>>;
