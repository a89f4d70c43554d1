import { answersOf, type Done, type Found } from '../../model/notices/answers.ts';
import type { NoticeKind } from '../../model/notices/notice.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';

/** What is chosen and typed for a closing, as a draft keeps it; empty where nothing is. */
export type Typed = { readonly found: string; readonly done: string; readonly words: string };

export const NO_ANSWERS: Typed = { found: '', done: '', words: '' };

/** A closing has room for so many characters of words. */
export const WORDS_MOST = 300;

export interface TypedAnswers {
  readonly found: Found | undefined;
  readonly done: Done | undefined;
  readonly words: string;
}

/** The answers of a draft; what does not fit that kind of notice is none. */
export function typedAnswers({ found, done, words }: Typed, kind: NoticeKind): TypedAnswers {
  const answers = answersOf(kind);
  return {
    found: answers.found.find((one) => one === found),
    done: answers.done.find((one) => one === done),
    words: words.trim(),
  };
}

/** Something is chosen or typed for a closing. */
export function isBegun({ found, done, words }: TypedAnswers): boolean {
  return found !== undefined || done !== undefined || words !== '';
}

/** It is begun, and the notice does not say just that. */
export function isHalfSaid({ ended }: Pick<NoticeView, 'ended'>, answers: TypedAnswers): boolean {
  const { found, done, words } = answers;
  const said = ended?.said;
  const isSaid = said?.found === found && said?.done === done && (said?.words ?? '') === words;
  return isBegun(answers) && !isSaid;
}
