import { wordsIn } from '../words/words.ts';

/** A part of a command line, as Node's `parseArgs` takes it apart. */
export type CommandToken =
  | { readonly kind: 'positional'; readonly value: string }
  | { readonly kind: 'option-terminator' }
  | {
      readonly kind: 'option';
      /** Without dashes. */
      readonly name: string;
      /** As it was written. */
      readonly rawName: string;
      readonly value: string | undefined;
      /** The value is joined on with “=”. */
      readonly inlineValue: boolean | undefined;
    };

export type CommandOptions = Readonly<Record<string, { readonly type: 'string' | 'boolean' }>>;

/**
 * The first thing in a command line that does not fit its options, as words that stand behind a colon; undefined where
 * all fits. Node's own check has sentences of its own, so it only takes the line apart.
 */
export function commandMistake(tokens: readonly CommandToken[], options: CommandOptions): string | undefined {
  for (const token of tokens) {
    const mistake = mistakeIn(token, options);
    if (mistake !== undefined) return mistake;
  }
  return undefined;
}

/** What begins with a dash is the next option, unless it is joined on with “=”: a value was left out. */
function mistakeIn(token: CommandToken, options: CommandOptions): string | undefined {
  const words = wordsIn('en').commandLine;
  if (token.kind === 'option-terminator') return undefined;
  if (token.kind === 'positional') return words.stray(token.value);
  const { name, rawName, value, inlineValue } = token;
  if (!rawName.startsWith('--') || !Object.hasOwn(options, name)) return words.unknown(rawName);
  if (options[name]?.type === 'boolean') return value === undefined ? undefined : words.noValueTaken(rawName);
  return value === undefined || (!inlineValue && value.startsWith('-')) ? words.noValue(rawName) : undefined;
}
