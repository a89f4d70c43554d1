import type { EpochMs } from '../units/units.ts';
import type { Done, Found } from './answers.ts';
import type { LookFirst, NoticeFacts, ToldWhy } from './notice.ts';
import type { NoticeLevel } from './recipients.ts';
import type { NoticeSettings } from './settings.ts';

/** What stands on the tape of notices: what Scoreline raised and told, and what people did about it. */
export type NoticeEntryBody = NoticeProgramBody | NoticePersonBody;

/** Written by the gateway itself. */
export type NoticeProgramBody =
  /** `within`: it joins that open notice, and is none of its own. */
  | {
      readonly kind: 'noticeRaised';
      readonly notice: string;
      /** What it is about: while that holds nothing else is raised for it. */
      readonly key: string;
      readonly level: NoticeLevel;
      readonly facts: NoticeFacts;
      readonly since: EpochMs;
      readonly station?: string;
      readonly size?: string;
      readonly stop?: string;
      readonly look: readonly LookFirst[];
      readonly within?: string;
    }
  /** `key` holds no longer; the notice is back to normal once nothing that it is about holds. again: `key` holds once more. */
  | {
      readonly kind: 'noticeMoved';
      readonly notice: string;
      readonly to: 'normal' | 'again';
      readonly key: string;
      /** Of what holds once more: how it is now. */
      readonly facts?: NoticeFacts;
      readonly since?: EpochMs;
      readonly look?: readonly LookFirst[];
    }
  /** stronger: there is more behind it than when it was raised, so that whoever wants stronger ones is told as well. */
  | {
      readonly kind: 'noticeMoved';
      readonly notice: string;
      readonly to: 'stronger';
      readonly facts: NoticeFacts;
      readonly look: readonly LookFirst[];
    }
  /** changed: what it lists is another, since some of it is done or more has come; nobody is told anew. */
  | {
      readonly kind: 'noticeMoved';
      readonly notice: string;
      readonly to: 'changed';
      readonly facts: NoticeFacts;
    }
  /** unshelved: its time on the shelf is over. ended: back to normal for long, and nobody took it. */
  | { readonly kind: 'noticeMoved'; readonly notice: string; readonly to: 'unshelved' | 'ended' }
  /** The next step of the plan was reached: nobody had taken it. */
  | { readonly kind: 'noticeStep'; readonly notice: string; readonly step: number }
  | {
      readonly kind: 'noticeTold';
      readonly notice: string;
      readonly person: string;
      readonly way: string;
      readonly round: number;
      readonly step: number;
      readonly failed: boolean;
      readonly why?: ToldWhy;
    };

/** Entered by people. */
export type NoticePersonBody =
  /**
   * "I'm going": acknowledged, and whose it is. `over`: it is taken over from whoever has had it since then, so that nobody takes
   * it over from somebody whom the screen did not show yet.
   */
  | { readonly kind: 'noticeTaken'; readonly notice: string; readonly over?: EpochMs }
  /** Handed over to a person by number, who has it from now on. */
  | { readonly kind: 'noticeHanded'; readonly notice: string; readonly to: string }
  /** Put aside until a moment of line time, with why. */
  | {
      readonly kind: 'noticeShelved';
      readonly notice: string;
      readonly until: EpochMs;
      readonly words: string;
    }
  | { readonly kind: 'noticeUnshelved'; readonly notice: string }
  /** What was found and done; of one that has ended by itself it may be said later. It is corrected like other entries. */
  | {
      readonly kind: 'noticeClosed';
      readonly notice: string;
      readonly found: Found;
      readonly done: Done;
      readonly words?: string;
    }
  | { readonly kind: 'noticeSettings'; readonly settings: NoticeSettings; readonly why: string };
