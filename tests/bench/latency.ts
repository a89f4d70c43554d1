import type { Figure } from "./run.ts"; export async function measure(): Promise<Figure> { throw new Error("x"); }
