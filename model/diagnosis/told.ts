import type { DiagnosisAnswer } from './diagnosisAnswer.ts';

/** What may explain a station's trouble, or why nothing is said of it. */
export type DiagnosisTold =
  | { readonly kind: 'told'; readonly diagnosis: DiagnosisAnswer }
  /** noKnowledge: no file of symptoms lies beside the line's. noRun: no size runs. tooFew: no whole run of the size before. */
  | { readonly kind: 'noKnowledge' }
  | { readonly kind: 'noRun' }
  | { readonly kind: 'tooFew' };
