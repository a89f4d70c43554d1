/** What does not fit in a command line: each stands behind a colon, within a sentence. */
export const commandLineWords = {
  unknown: (option: string) => `there is no option ${option}`,
  stray: (text: string) => `“${text}” belongs to no option`,
  noValue: (option: string) => `${option} has no value`,
  noValueTaken: (option: string) => `${option} takes no value`,
} as const;

/** What is wrong with how the start command was called. */
export const optionWords = {
  demoOnly: (option: string) => `${option} cannot be used together with --line.`,
  demoOnlyWhy: 'It is about the simulated machine of the demo line, and nothing else follows it.',
  demoOnlyMend: (option: string) => `Leave out ${option}, or --line.`,
  badLogLevel: (level: string) => `The log has no level “${level}”.`,
  badLogLevelWhy: 'The variable SCORELINE_LOG names how much is told.',
  badLogLevelMend: (levels: readonly string[]) => `Unset it, or set it to one of: ${levels.join(', ')}.`,
} as const;
