import { useEffect, useRef } from 'react';
import type { Author } from '../../model/entries/entries.ts';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import type { Tried } from '../../model/notices/tried.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { Frame } from '../past/frame.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useSession } from '../people/session.ts';
import { useEnter, useHeld, usePart } from '../store/use.tsx';
import { type Drafting, useDraft } from './settingsDraft.ts';
import { NotArrived, TakenBack } from './settingsArrived.tsx';
import { Who } from './settingsWho.tsx';
import { Ways, type WaysTold } from './settingsWays.tsx';
import { Rules } from './settingsRules.tsx';
import { SaveSettings } from './settingsSave.tsx';
import { TriedBudgets } from './settingsTried.tsx';
import { TriedKindsSheet } from './settingsTriedKinds.tsx';
import { troublesOf } from './settingsTroubles.ts';

const said = words.screen.noticeSettings;
const DAYS = 30;
/** What is set is asked for so often: others may change it. */
const AGAIN_MS = 15_000;
/** Thirty days are judged again on each asking. */
const TRIED_MS = 600_000;

/** The settings in use, as the gateway tells them. */
interface SettingsTold {
  readonly settings: NoticeSettings;
  readonly at?: number;
  readonly by?: Author;
  readonly why?: string;
}

/** What is told, how rarely it may be false, and who is told: chosen by what it would have done. */
export function NoticeSettingsScreen() {
  const { id } = usePart('line');
  const line = `/api/lines/${encodeURIComponent(id)}`;
  const asked = useAsked<SettingsTold>(`${line}/notices/settings`, AGAIN_MS);
  const settings = asked.data?.settings;
  return (
    <Frame
      screen="notices"
      title={said.title}
      lead={
        settings === undefined
          ? ['', '']
          : [said.lead(settings.when.stops.falseOnceInShifts), said.leadFor(settings.who.recipients.length)]
      }
      actions={
        <a className="btn plain" href="/notices">
          {said.toNotices}
        </a>
      }
      overview={undefined}
      asked={asked}
    >
      {asked.data && <Settings told={asked.data} again={asked.again} line={line} />}
    </Frame>
  );
}

function Settings({
  told,
  again,
  line,
}: {
  readonly told: SettingsTold;
  readonly again: () => void;
  readonly line: string;
}) {
  const { id, zone } = usePart('line');
  const overview = useAsked<PastOverview>(`${line}/past`, TRIED_MS);
  const triedPath = `${line}/notices/tried?days=${DAYS}`;
  const tried = useAsked<Tried>(triedPath, TRIED_MS);
  const ways = useAsked<WaysTold>('/api/notices/ways', AGAIN_MS);
  const drafting = useDraft(id, told.settings);
  useWhenTaken(() => {
    again();
    tried.again();
  });
  const session = useSession();
  const may = session === undefined || session.may.includes('noticeSettings');
  const { settings, change } = drafting;
  const troubles = troublesOf(settings);
  const { at, by, why } = told;
  return (
    <div className="noticesettings">
      <p className="chosen">
        {at !== undefined && by && why !== undefined ? said.chosen(by, at, why, zone) : said.chosenByNobody}
      </p>
      <NeedsLogIn act="noticeSettings" />
      <UseBudget told={told.settings} tried={tried.data} may={may} drafting={drafting} />
      {tried.data && (
        <TriedKindsSheet
          tried={tried.data}
          days={DAYS}
          path={triedPath}
          settings={settings}
          mayDraft={may && drafting.isChanged && troubles.length === 0}
        />
      )}
      <Rules rules={settings.when} change={(when) => change({ ...settings, when })} />
      <Who
        who={settings.who}
        change={(who) => change({ ...settings, who })}
        overview={overview.data}
        ways={ways.data}
      />
      <SaveSettings drafting={drafting} troubles={troubles} may={may} />
      <Ways ways={ways.data} />
      <NotArrived may={may} />
      <TakenBack />
    </div>
  );
}

/** Saves a budget by itself, with its reason; what else is being changed stays as it is. */
function UseBudget({
  told,
  tried,
  may,
  drafting,
}: {
  readonly told: NoticeSettings;
  readonly tried: Tried | undefined;
  readonly may: boolean;
  readonly drafting: Drafting;
}) {
  const enter = useEnter();
  const isSending = useHeld(({ sent }) =>
    sent.some(({ entry, state }) => entry.kind === 'noticeSettings' && state === 'onItsWay'),
  );
  if (!tried) return <p className="saying">{said.tried.waits}</p>;
  return (
    <TriedBudgets
      tried={tried}
      inUse={told.when.stops.falseOnceInShifts}
      days={DAYS}
      may={may}
      isSending={isSending}
      use={(budget, why) => {
        const to = withBudget(budget);
        enter({ kind: 'noticeSettings', settings: to(told), why });
        drafting.both(to);
      }}
    />
  );
}

function withBudget(falseOnceInShifts: number) {
  return ({ when, who }: NoticeSettings): NoticeSettings => ({
    when: { ...when, stops: { ...when.stops, falseOnceInShifts } },
    who,
  });
}

/** Acts when settings that were entered here have come onto the tape. */
function useWhenTaken(act: () => void): void {
  const taken = useHeld(
    ({ sent }) =>
      sent.filter(({ entry, state }) => entry.kind === 'noticeSettings' && state === 'kept').length,
  );
  const latest = useRef(act);
  latest.current = act;
  useEffect(() => {
    if (taken > 0) latest.current();
  }, [taken]);
}
