import type { PersonEntryKind } from '../entries/entries.ts';
import type { CorrectableKind } from '../entries/saidEntries.ts';

/** What a person can be allowed to do. A person has any number of roles; each adds, none takes away. */
export const ROLES = ['viewer', 'operator', 'maintenance', 'engineer', 'safety', 'admin'] as const;
export type Role = (typeof ROLES)[number];

/** Where something is done without a log-in: at a line-side panel, or at a desk, a phone, or by a program. */
export const PLACES = ['panel', 'screen'] as const;
export type Place = (typeof PLACES)[number];

export const ACTS = [
  'look',
  'export',
  'reason',
  'going',
  'note',
  'whichButton',
  'order',
  'crew',
  'handOver',
  'takeOut',
  'cause',
  'change',
  'target',
  'setting',
  'datum',
  'offset',
  'book',
  'approveStep',
  'correct',
  'closeFinding',
  'recordTest',
  'sign',
  'takeNotice',
  'closeNotice',
  'handNotice',
  'shelveNotice',
  'endMaking',
  'noticeSettings',
  'people',
] as const;
export type Act = (typeof ACTS)[number];

/**
 * What holds at a place without a log-in. `untilPeople`: as long as nobody has a number here, since it bears one;
 * `unlessClosed`: as long as no admin has said that desks and programs have to log in.
 */
export type PlaceRule = 'allowed' | 'refused' | 'untilPeople' | 'unlessClosed';
export type RoleRule = 'allowed' | 'refused';

export type AccessRow = Readonly<Record<Place, PlaceRule> & Record<Role, RoleRule>>;

const yes = 'allowed';
const no = 'refused';
const people = 'untilPeople';
const open = 'unlessClosed';

/** Every rule of who may do what; whatever asks, asks here. */
export const ACCESS: Readonly<Record<Act, AccessRow>> = {
  look: row([yes, yes], [yes, yes, yes, yes, yes, yes]),
  export: row([yes, yes], [yes, yes, yes, yes, yes, yes]),
  reason: row([yes, open], [no, yes, yes, yes, yes, no]),
  going: row([yes, open], [no, yes, yes, yes, yes, no]),
  note: row([yes, open], [no, yes, yes, yes, yes, no]),
  whichButton: row([yes, open], [no, yes, yes, yes, yes, no]),
  order: row([yes, open], [no, yes, no, yes, no, no]),
  crew: row([yes, open], [no, yes, no, yes, no, no]),
  handOver: row([yes, open], [no, yes, no, yes, no, no]),
  takeOut: row([yes, open], [no, yes, yes, yes, no, no]),
  cause: row([no, open], [no, yes, yes, yes, yes, no]),
  change: row([no, open], [no, yes, yes, yes, no, no]),
  target: row([no, open], [no, no, no, yes, no, no]),
  // [SH3] whoever moves a changeover on: at the panel the position is the author
  setting: row([yes, open], [no, yes, yes, yes, no, no]),
  datum: row([no, open], [no, no, yes, yes, no, no]),
  offset: row([no, open], [no, no, no, yes, no, no]),
  // [BK1], [SH3]: these bear the number of a person
  book: row([no, people], [no, no, no, yes, no, no]),
  approveStep: row([people, people], [no, yes, yes, yes, no, no]),
  // [EN1] beside it, whoever corrects an entry has to be allowed to make one of its kind
  correct: row([yes, open], [no, yes, yes, yes, yes, no]),
  // [RE4], [PS5]: these bear the number of a person, so they need that person
  closeFinding: row([people, people], [no, no, yes, yes, yes, no]),
  recordTest: row([people, people], [no, yes, yes, yes, yes, no]),
  sign: row([people, people], [no, yes, yes, yes, yes, no]),
  takeNotice: row([yes, open], [no, yes, yes, yes, yes, no]),
  closeNotice: row([yes, open], [no, yes, yes, yes, yes, no]),
  handNotice: row([yes, open], [no, yes, yes, yes, yes, no]),
  // [NL3] at the panel it bears the number of a person: what is put aside is told to nobody meanwhile
  shelveNotice: row([people, open], [no, no, yes, yes, yes, no]),
  endMaking: row([no, open], [no, no, no, yes, no, yes]),
  noticeSettings: row([no, people], [no, no, no, yes, no, yes]),
  people: row([no, no], [no, no, no, no, no, yes]),
};

function row([panel, screen]: readonly [PlaceRule, PlaceRule], roles: readonly RoleRule[]): AccessRow {
  const [viewer = no, operator = no, maintenance = no, engineer = no, safety = no, admin = no] = roles;
  return { panel, screen, viewer, operator, maintenance, engineer, safety, admin };
}

/** Who asks: where, and with which roles; none without a log-in. */
export interface Asking {
  readonly place: Place;
  readonly roles: readonly Role[];
}

/** How this plant has it. */
export interface Plant {
  /** Whether anybody has a number here. */
  readonly people: boolean;
  /** Whether desks and programs have to log in for entries. */
  readonly closed: boolean;
}

/** Whether somebody may do it: by one of the roles, or by the place alone. What the place allows, a log-in never takes away. */
export function mayDo(act: Act, { place, roles }: Asking, plant: Plant): boolean {
  return roles.some((role) => ACCESS[act][role] === 'allowed') || placeMay(ACCESS[act][place], plant);
}

function placeMay(rule: PlaceRule, { people: known, closed }: Plant): boolean {
  switch (rule) {
    case 'allowed':
      return true;
    case 'refused':
      return false;
    case 'untilPeople':
      return !known;
    case 'unlessClosed':
      return !closed;
  }
}

/** Whether an act stands under the number of the person who does it, wherever it is done. */
export function bearsNumber(act: Act): boolean {
  return ACCESS[act].panel === 'untilPeople';
}

/** The act that an entry is. Orders of the list are entered by nobody: the gateway reads them. */
export const ACT_OF_ENTRY: Readonly<Record<PersonEntryKind, Act>> = {
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
};

/** All that has to be allowed for an entry: a correction is also an entry of the kind of what it corrects. */
export function actsOf(entry: {
  readonly kind: PersonEntryKind;
  readonly was?: CorrectableKind;
}): readonly Act[] {
  const own = ACT_OF_ENTRY[entry.kind];
  return entry.was === undefined ? [own] : [own, ACT_OF_ENTRY[entry.was]];
}

/** How somebody logged in: a code is short, so it does not carry what an admin may do. */
export type SecretKind = 'password' | 'code';

export function rolesBy(roles: readonly Role[], by: SecretKind): readonly Role[] {
  return by === 'password' ? roles : roles.filter((role) => role !== 'admin');
}
