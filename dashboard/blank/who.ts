import type { Head } from '../../model/view/view.ts';
import type { Matter } from '../../model/view/matter.ts';
import { words } from '../app/words.ts';
import { markOfMatter } from '../matters/matters.tsx';
import { mattersBeside, shownNotices } from '../notices/shown.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import type { Moment } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { type Told, useTold } from './told.ts';

/** Who is coming, who is wanted where, or that nobody is; while nobody vouches for that, who is silent. */
export function useWhoComes(): string {
  const head = usePart('head');
  const matters = usePart('matters');
  const { open, counts } = usePart('notices');
  const moment = useMoment();
  const told = useTold(moment);
  const shown = shownNotices(open, matters);
  return (
    whoIsSilent(moment, told.zone) ??
    whoComes(head, mattersBeside(matters, shown), told, {
      shown,
      untaken: counts.untaken,
    })
  );
}

/** Who is silent, in words; undefined while nobody is. */
export function whoIsSilent(moment: Moment, zone: string): string | undefined {
  const { head } = words.screen.line;
  switch (moment.sight) {
    case 'live':
      return undefined;
    case 'stale':
      return { gateway: head.staleGateway, plc: head.stalePlc, tape: head.staleTape, none: head.stalePlc }[
        moment.cause
      ](moment.now, zone);
    case 'lost':
    case 'never':
      return {
        gateway: head.silentGateway,
        plc: head.silentPlc,
        tape: head.silentTape,
        none: head.notTold,
      }[moment.cause];
  }
}

/** Notices that the screen shows, and how many nobody has taken, as every screen counts them. */
interface Untaken {
  readonly shown: readonly NoticeView[];
  readonly untaken: number;
}

/** "Nobody is needed" is said only of a line that runs and asks for nothing. */
export function whoComes(head: Head, matters: readonly Matter[], told: Told, notices: Untaken): string {
  const { head: said } = words.screen.line;
  switch (head.kind) {
    case 'stopped':
    case 'pressed':
      return head.going === undefined
        ? said.nobodyGoing
        : said.isGoing(head.going.who, head.going.at, told.zone);
    case 'starved':
    case 'blocked':
      return said.wantedAt(head.name, told.station(head.station));
    case 'changeover':
      return said.setting;
    case 'pause':
      return head.over ? said.pauseOver(head.name) : said.backBy(head.allowanceEnds, told.zone);
    case 'unknown':
      return said.notTold;
    case 'running':
      return wantedBy(matters, told, notices) ?? said.nobodyNeeded;
    case 'offShift':
      return wantedBy(matters, told, notices) ?? said.nobodyPlanned;
  }
}

/** What asks for a person: notices that nobody has taken, and matters; the one there is by its own words, several by their number. */
function wantedBy(matters: readonly Matter[], told: Told, { shown, untaken }: Untaken): string | undefined {
  const { head: said, matters: named } = words.screen.line;
  const calling = shown.filter(({ state }) => state === 'raised').map(words.noticeSaid.title);
  const wanting = matters.filter((matter) => markOfMatter(matter) !== 'n-taken');
  if (calling.length + wanting.length === 0) return undefined;
  if (calling.length === 0 && wanting.every(({ kind }) => kind === 'unexplainedStop'))
    return said.answersWanted(wanting.length);
  const [only] = [...calling, ...wanting.map((matter) => named.said(matter, told)[0])];
  const notices = calling.length === 0 ? 0 : untaken;
  return notices + wanting.length === 1 && only !== undefined
    ? said.wantedFor(only)
    : said.noticesWant(notices, wanting.length);
}
