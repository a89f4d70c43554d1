/** What `npm test` prints. The last line is read by programs: whole numbers without separators. */
export const checkWords = {
  begins: (name: 'types' | 'lint' | 'tests') =>
    ({ types: 'Types …', lint: 'Lint …', tests: 'Tests …' })[name],
  ended: (name: 'types' | 'lint', passed: boolean) =>
    ({ types: 'Types', lint: 'Lint' })[name] + (passed ? ' passed.' : ' failed: see above.'),
  noReport: 'The tests ended without a report: see above.',
  noTests: 'No test ran.',
  outsideTests: 'Something failed outside any single test: see above.',
  total: (passed: number, failed: number, skipped: number) =>
    `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`,
} as const;
