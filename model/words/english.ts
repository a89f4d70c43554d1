import { apiWords } from './english-api.ts';
import { asOfWords } from './english-as-of.ts';
import { backupWords } from './english-backup.ts';
import { balanceWords } from './english-balance.ts';
import { bindingWords } from './english-binding.ts';
import { checkWords } from './english-checks.ts';
import { diagnosisWords } from './english-diagnosis.ts';
import { gatewayWords } from './english-gateway.ts';
import { importWords } from './english-import.ts';
import { intakeWords } from './english-intake.ts';
import { commandLineWords, optionWords } from './english-options.ts';
import { cautionWords, entryWords, pageWords, panelWords, pressedWords } from './english-panel.ts';
import { pastWords } from './english-past.ts';
import { peopleScreenWords } from './english-people-screen.ts';
import { peopleWords } from './english-people.ts';
import { pathWords } from './english-path.ts';
import { lineWords } from './english-screen.ts';
import { exportWords } from './english-export.ts';
import { fittedWords } from './english-fitted.ts';
import { sheetWords } from './english-sheet.ts';
import { simulatorWords } from './english-simulator.ts';
import { systemWords } from './english-system.ts';
import { tapeWords } from './english-tape.ts';
import { ownPushWords, pushWords } from './english-push.ts';
import { clearTextWords, keyWords, tlsWords } from './english-tls.ts';
import { noticeSettingsWords } from './english-notice-settings.ts';
import { noticeWhoWords } from './english-notice-who.ts';
import { noticeSoundWords } from './english-notice-sound.ts';
import { noticeActWords } from './english-notice-acts.ts';
import { noticePanelWords } from './english-notice-panel.ts';
import { noticeScreenWords } from './english-notice-screen.ts';
import { noticeSaidWords } from './english-notice-said.ts';
import { noticesWords } from './english-notices.ts';
import { waysWords } from './english-ways.ts';
import * as numbers from './format.ts';

const locale = 'en-GB';

/** English. Numbers, units and plurals go through Intl by `format.ts`. */
export const english = {
  locale,
  count: (n: number) => numbers.count(n, locale),
  duration: (ms: number) => numbers.duration(ms, locale),

  /** Sentences of the screens. */
  screen: {
    line: { ...lineWords, ...pathWords },
    panel: panelWords,
    pressed: pressedWords,
    caution: cautionWords,
    entry: entryWords,
    page: pageWords,
    past: pastWords,
    balance: balanceWords,
    diagnosis: diagnosisWords,
    sheet: sheetWords,
    fitted: fittedWords,
    people: peopleScreenWords,
    notices: noticeScreenWords,
    noticePanel: noticePanelWords,
    noticeActs: noticeActWords,
    noticeSound: noticeSoundWords,
    noticeSettings: noticeSettingsWords,
    noticeWho: noticeWhoWords,
    clearText: clearTextWords,
    ownPush: ownPushWords,
  },

  /** What does not fit in the command line of any of our programs. */
  commandLine: commandLineWords,

  /** What the gateway's commands print, and the troubles they tell. */
  gateway: {
    ...gatewayWords,
    api: apiWords,
    binding: bindingWords,
    intake: intakeWords,
    options: optionWords,
    system: systemWords,
    tls: tlsWords,
    keys: keyWords,
    backup: backupWords,
    importing: importWords,
    asOf: asOfWords,
  },

  /** Numbers of people, log-ins, and what they may do. */
  people: peopleWords,

  /** How notices reach people, and why they did not. */
  ways: waysWords,

  /** Notices by a browser’s push service. */
  push: pushWords,

  /** What notices are about, and what can be done with one. */
  notices: noticesWords,
  noticeSaid: noticeSaidWords,

  /** What is taken out as files: tables, their columns, and what is said of them. */
  exporting: exportWords,

  /** Troubles of the tape. */
  tape: tapeWords,

  /** What `npm test` prints. */
  checks: checkWords,

  /** What the simulator's commands print, and the troubles they tell. */
  simulator: simulatorWords,
} as const;
