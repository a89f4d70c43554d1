import { execFileSync } from 'node:child_process';
import { appendFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { LineError } from '../../model/trouble/trouble.ts';
import { attribution } from './attribution.ts';
import { diagnosisProof } from './diagnosis.ts';
import { faults } from './faults.ts';
import { heldProof } from './held.ts';
import { kills } from './kills.ts';
import { normal } from './normal.ts';
import { notices } from './notices.ts';
import { reports } from './reports.ts';
import { setpointsProof } from './setpoints.ts';
import { soak } from './soak.ts';
import { week } from './week.ts';

/** `npm run -s proof -- NAME`: a long proof; its rows, with the commit they were made at, stand beside this file. */
type Rows = Iterable<{ readonly equal: boolean }> | AsyncIterable<{ readonly equal: boolean }>;
const proofs: Readonly<Record<string, () => Rows>> = {
  week,
  attribution,
  normal,
  reports,
  notices,
  held: heldProof,
  diagnosis: diagnosisProof,
  setpoints: () => setpointsProof(world),
  faults,
  kills,
  soak,
};

const name = process.argv[2] ?? '';
/** A world of one's own is judged and printed; the rows that are kept are of the worlds that are drawn. */
const asked = process.argv.indexOf('--world');
const world = asked > 0 ? (process.argv[asked + 1] ?? '') : undefined;
const proof = proofs[name];
if (!proof) {
  process.stderr.write(`There is no proof “${name}”. There are: ${Object.keys(proofs).join(', ')}\n`);
  process.exit(1);
}
const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' }).trim();
const file = join(import.meta.dirname, `${name}.ndjson`);
if (world === undefined) writeFileSync(file, '');
let rows = 0;
let wrong = 0;
for await (const row of rowsOf(proof)) {
  const text = `${JSON.stringify({ ...row, commit })}\n`;
  if (world === undefined) appendFileSync(file, text);
  process.stdout.write(text);
  rows += 1;
  if (!row.equal) wrong += 1;
}
process.stdout.write(`${rows} rows, ${wrong} wrong\n`);
process.exitCode = wrong === 0 ? 0 : 1;

/** What a person can mend ends it with what, why and how to mend it. */
async function* rowsOf(made: () => Rows): AsyncGenerator<{ readonly equal: boolean }> {
  try {
    yield* made();
  } catch (error) {
    if (!(error instanceof LineError)) throw error;
    process.stderr.write(`${error.message}. ${error.why} ${error.mend}\n`);
    process.exit(1);
  }
}
