/** `npm run -s bench -- NAME`: one measurement; its last line is one JSON object. */
const benches: Readonly<Record<string, () => Promise<{ readonly measure: () => Promise<Figure> }>>> = {
  fold: () => import('./fold.ts'),
  intake: () => import('./intake.ts'),
  history: () => import('./history.ts'),
  paint: () => import('./paint.ts'),
  latency: () => import('./latency.ts'),
  tape: () => import('./tape.ts'),
  replay: () => import('./replay.ts'),
};

/** What a bench tells: a value beside a reference that was measured in the same run, and whatever else it saw. */
export interface Figure {
  readonly value: number;
  readonly unit: string;
  readonly reference: number;
  readonly ratio: number;
  readonly [more: string]: number | string;
}

const name = process.argv[2] ?? '';
const bench = benches[name];
if (!bench) {
  process.stderr.write(`There is no bench “${name}”. There are: ${Object.keys(benches).join(', ')}\n`);
  process.exit(1);
}
const { measure } = await bench();
const figure = await measure();
process.stdout.write(`${JSON.stringify({ bench: name, ...figure })}\n`);
process.exit(0);
