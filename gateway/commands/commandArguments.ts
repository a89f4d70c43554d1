import { parseArgs } from 'node:util';
import { type CommandOptions, commandMistake } from '../../model/commandLine/commandLine.ts';
import { badOption } from './badOption.ts';

type ValueOf<Options extends CommandOptions> = {
  readonly [Name in keyof Options]?: Options[Name]['type'] extends 'boolean' ? boolean : string;
};

/** A command line after the command's name: its options, and what belongs to none of them, `most` at most. */
export function readCommandLine<const Options extends CommandOptions>(
  args: readonly string[],
  options: Options,
  most: number,
): { readonly values: ValueOf<Options>; readonly places: readonly string[] } {
  const { values, tokens } = parseArgs({ args: [...args], options, strict: false, tokens: true });
  const positional = tokens.filter((token) => token.kind === 'positional');
  const kept = new Set<unknown>(positional.slice(0, most));
  const mistake = commandMistake(
    tokens.filter((token) => !kept.has(token)),
    options,
  );
  if (mistake !== undefined) throw badOption(mistake);
  return { values: values as ValueOf<Options>, places: positional.slice(0, most).map(({ value }) => value) };
}
