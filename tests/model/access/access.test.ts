import { describe, expect, it } from 'vitest';
import {
  ACCESS,
  ACT_OF_ENTRY,
  type Act,
  ACTS,
  actsOf,
  bearsNumber,
  mayDo,
  PLACES,
  type Place,
  type Plant,
  ROLES,
  type Role,
  rolesBy,
} from '../../../model/access/access.ts';

/**
 * Who may do what, written down by hand beside the table. Without a log-in: at a panel, and at a desk, a phone or by a
 * program; y is yes, n is no, p only until somebody has a number here, c only unless the plant has closed it. Then the
 * roles: viewer, operator, maintenance, engineer, safety, admin.
 */
const WRITTEN: readonly (readonly [Act, string])[] = [
  ['look', 'y y  y y y y y y'],
  ['export', 'y y  y y y y y y'],
  ['reason', 'y c  n y y y y n'],
  ['going', 'y c  n y y y y n'],
  ['note', 'y c  n y y y y n'],
  ['whichButton', 'y c  n y y y y n'],
  ['order', 'y c  n y n y n n'],
  ['crew', 'y c  n y n y n n'],
  ['handOver', 'y c  n y n y n n'],
  ['takeOut', 'y c  n y y y n n'],
  ['cause', 'n c  n y y y y n'],
  ['change', 'n c  n y y y n n'],
  ['target', 'n c  n n n y n n'],
  ['setting', 'y c  n y y y n n'],
  ['datum', 'n c  n n y y n n'],
  ['offset', 'n c  n n n y n n'],
  ['book', 'n p  n n n y n n'],
  ['approveStep', 'p p  n y y y n n'],
  ['correct', 'y c  n y y y y n'],
  ['closeFinding', 'p p  n n y y y n'],
  ['recordTest', 'p p  n y y y y n'],
  ['sign', 'p p  n y y y y n'],
  ['takeNotice', 'y c  n y y y y n'],
  ['closeNotice', 'y c  n y y y y n'],
  ['handNotice', 'y c  n y y y y n'],
  ['shelveNotice', 'p c  n n y y y n'],
  ['endMaking', 'n c  n n n y n y'],
  ['noticeSettings', 'n p  n n n y n y'],
  ['people', 'n n  n n n n n y'],
];

const COLUMNS = ['panel', 'screen', 'viewer', 'operator', 'maintenance', 'engineer', 'safety', 'admin'];
const PLANTS: readonly Plant[] = [
  { people: false, closed: false },
  { people: false, closed: true },
  { people: true, closed: false },
  { people: true, closed: true },
];

const placeCells = WRITTEN.flatMap(([act, line]) =>
  line
    .split(/ +/)
    .slice(0, 2)
    .flatMap((cell, i) => PLANTS.map((plant) => ({ act, place: COLUMNS[i] as Place, cell, plant }))),
);
const roleCells = WRITTEN.flatMap(([act, line]) =>
  line
    .split(/ +/)
    .slice(2)
    .map((cell, i) => ({ act, role: COLUMNS[i + 2] as Role, cell })),
);

function expected(cell: string, { people, closed }: Plant): boolean {
  return cell === 'y' || (cell === 'p' && !people) || (cell === 'c' && !closed);
}

describe('the table of who may do what', () => {
  it('has a cell written by hand for every act, place and role', () => {
    expect(WRITTEN.map(([act]) => act)).toEqual([...ACTS]);
    expect(COLUMNS).toEqual([...PLACES, ...ROLES]);
    for (const [act, line] of WRITTEN) expect(line.split(/ +/), act).toHaveLength(COLUMNS.length);
    expect(placeCells.length + roleCells.length).toBe(29 * 2 * 4 + 29 * 6);
  });

  it.each(placeCells)(
    '[AC1] $act at a $place without a log-in is "$cell": $plant.people people, $plant.closed closed',
    ({ act, place, cell, plant }) => {
      expect(mayDo(act, { place, roles: [] }, plant)).toBe(expected(cell, plant));
    },
  );

  it.each(roleCells)('[AC1] $act by the role $role alone is "$cell"', ({ act, role, cell }) => {
    expect(ACCESS[act][role]).toBe(cell === 'y' ? 'allowed' : 'refused');
    // where the place allows nothing, the role alone decides
    const shut: Plant = { people: true, closed: true };
    const byPlace = mayDo(act, { place: 'screen', roles: [] }, shut);
    expect(mayDo(act, { place: 'screen', roles: [role] }, shut)).toBe(cell === 'y' || byPlace);
  });

  it('[AC2] a log-in never takes away what is allowed without one', () => {
    for (const act of ACTS)
      for (const place of PLACES)
        for (const plant of PLANTS)
          for (const role of ROLES)
            if (mayDo(act, { place, roles: [] }, plant))
              expect(mayDo(act, { place, roles: [role] }, plant), `${act} ${place} ${role}`).toBe(true);
  });

  it('two roles may do what either of them may, and nothing else', () => {
    const plant: Plant = { people: true, closed: true };
    for (const act of ACTS)
      for (const one of ROLES)
        for (const other of ROLES)
          expect(mayDo(act, { place: 'screen', roles: [one, other] }, plant)).toBe(
            mayDo(act, { place: 'screen', roles: [one] }, plant) ||
              mayDo(act, { place: 'screen', roles: [other] }, plant),
          );
  });

  it('[AC3] what bears a person’s number is an approved step, a closed finding, a recorded test, a signature and what is shelved at a panel', () => {
    expect(ACTS.filter(bearsNumber)).toEqual([
      'approveStep',
      'closeFinding',
      'recordTest',
      'sign',
      'shelveNotice',
    ]);
  });

  it('every kind of entry that can be sent is one of the acts', () => {
    expect(ACT_OF_ENTRY).toEqual({
      reason: 'reason',
      notNow: 'reason',
      going: 'going',
      note: 'note',
      device: 'whichButton',
      order: 'order',
      crew: 'crew',
      handedOver: 'handOver',
      takenOut: 'takeOut',
      closed: 'closeFinding',
      tested: 'recordTest',
      signed: 'sign',
      cause: 'cause',
      changed: 'change',
      target: 'target',
      reading: 'setting',
      asBook: 'setting',
      fitted: 'setting',
      looked: 'reason',
      sheetBegun: 'setting',
      stepDone: 'setting',
      sheetHanded: 'setting',
      sheetEnded: 'setting',
      stepApproved: 'approveStep',
      datum: 'datum',
      datumOffset: 'offset',
      book: 'book',
      correction: 'correct',
      noticeTaken: 'takeNotice',
      noticeHanded: 'handNotice',
      noticeShelved: 'shelveNotice',
      noticeUnshelved: 'shelveNotice',
      noticeClosed: 'closeNotice',
      noticeSettings: 'noticeSettings',
    });
  });

  it('[EN1] whoever corrects an entry has to be allowed to make one of its kind', () => {
    expect(actsOf({ kind: 'correction', was: 'tested' })).toEqual(['correct', 'recordTest']);
    expect(actsOf({ kind: 'crew' })).toEqual(['crew']);
  });

  it('[AC4] a code carries everything but what an admin may do, a password all', () => {
    expect(rolesBy(['operator', 'admin'], 'password')).toEqual(['operator', 'admin']);
    expect(rolesBy(['operator', 'admin'], 'code')).toEqual(['operator']);
    expect(rolesBy(['admin'], 'code')).toEqual([]);
  });
});
