import { describe, expect, it } from 'vitest';
import { REPORT_ROOMS, reportInRoom, type ReportRoom, WHOLE_ROOM } from '../../../model/report/reportRoom.ts';
import type { Millis } from '../../../model/units/units.ts';
import { crowdedReport, inventedSignatures, inventedStop } from './inventedReport.ts';

const room = (change: Partial<ReportRoom>): ReportRoom => ({ ...WHOLE_ROOM, ...change });

describe('a report that finds too little room', () => {
  it('[RE3] is whole where there is room', () => {
    const report = crowdedReport();
    const signatures = inventedSignatures(20, 'look at 9');
    expect(reportInRoom(report, signatures, WHOLE_ROOM)).toEqual({
      report,
      moreHandedOver: 0,
      signatures,
      moreSignatures: 0,
    });
  });

  it('[RE3] keeps the longest stops in their order, and counts the others with those left out before', () => {
    const list = [5, 1, 4, 2, 3].map((lasted, n) =>
      inventedStop(10 * n, { lasted: (lasted * 1000) as Millis }),
    );
    const before = crowdedReport().stops;
    const { stops } = reportInRoom(
      crowdedReport({ stops: { ...before, list } }),
      [],
      room({ rows: 3 }),
    ).report;
    expect(stops.list.map(({ lasted }) => lasted)).toEqual([5000, 4000, 3000]);
    expect(stops.more).toEqual({ stops: 18, stood: before.more.stood + 3000 });
    expect(stops.rows).toHaveLength(3);
    expect(stops.moreRows).toEqual({ rows: 11, stops: 9 + 7 * 3, stood: (20 + 7 * 9) * 60_000 });
  });

  it('[RE3] keeps the newest of every other list, and counts the rest', () => {
    const whole = crowdedReport();
    const { report, moreHandedOver } = reportInRoom(whole, [], room({ items: 1 }));
    expect(report.notes).toEqual(whole.notes.slice(-1));
    expect(report.changeovers).toEqual(whole.changeovers.slice(-1));
    expect(report.safety.list).toEqual(whole.safety.list.slice(-1));
    expect([report.moreNotes, report.moreChangeovers, report.moreUnseen, moreHandedOver]).toEqual([
      7, 6, 9, 11,
    ]);
    expect(report.safety.uses).toBe(whole.safety.uses);
  });

  it('[RE3] names who hands over and takes over before who has only seen it', () => {
    const all = inventedSignatures(6);
    const late = [...all.slice(2), all[0]!, all[1]!];
    const { signatures, moreSignatures } = reportInRoom(crowdedReport(), late, room({ signatures: 3 }));
    expect(signatures.map(({ as }) => as)).toEqual(['seen', 'handsOver', 'takesOver']);
    expect(moreSignatures).toBe(3);
  });

  it('has less room with every step, and never none', () => {
    const falls = (of: (one: ReportRoom) => number) =>
      REPORT_ROOMS.every((one, n) => n === 0 || of(one) <= of(REPORT_ROOMS[n - 1]!)) &&
      of(REPORT_ROOMS.at(-1)!) > 0;
    expect([
      falls(({ text }) => text),
      falls(({ name }) => name),
      falls(({ rows }) => rows),
      falls(({ items }) => items),
      falls(({ signatures }) => signatures),
    ]).toEqual([true, true, true, true, true]);
  });
});
