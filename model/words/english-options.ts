/** What is wrong with an option of the start command. The first four stand behind a colon, within a sentence. */
export const optionWords = {
  unknown: (option: string) => `there is no option ${option}`,
  stray: (text: string) => `“${text}” belongs to no option`,
  noValue: (option: string) => `${option} has no value`,
  noValueTaken: (option: string) => `${option} takes no value`,
  demoOnly: (option: string) => `${option} cannot be used together with --line.`,
  demoOnlyWhy: 'It is about the simulated machine of the demo line, and nothing else follows it.',
  demoOnlyMend: (option: string) => `Leave out ${option}, or --line.`,
} as const;
