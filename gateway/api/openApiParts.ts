import { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import { troubleAnswer } from './schemas.ts';

const words = wordsIn('en').gateway.api.describe;

/** The line that an address is of; another part of a path that is in braces. */
export const line = inPath('line');

export function inPath(name: string) {
  return { name, in: 'path', required: true, schema: { type: 'string' } };
}

/** What may be asked, by the schema that the route itself reads the question with. */
export function asked(query: z.ZodObject) {
  const { properties = {} } = z.toJSONSchema(query);
  return Object.entries(query.shape).map(([name, field]) => ({
    name,
    in: 'query',
    required: !z.safeParse(field, undefined).success,
    schema: properties[name],
  }));
}

export function answer(summary: string, schema: z.ZodType, code = '200') {
  return { summary, responses: { [code]: { description: summary, content: json(schema) }, ...trouble } };
}

/** Comma-separated values (RFC 4180) with a row of titles. */
export function file(summary: string) {
  const content = { 'text/csv': { schema: { type: 'string' } } };
  return { summary, responses: { '200': { description: summary, content }, ...trouble } };
}

/** Bytes as they are. */
export function bytes(summary: string) {
  const content = { 'application/octet-stream': { schema: { type: 'string', format: 'binary' } } };
  return { summary, responses: { '200': { description: summary, content }, ...trouble } };
}

export function json(schema: z.ZodType) {
  return { 'application/json': { schema: z.toJSONSchema(schema) } };
}

const trouble = { '4XX': { description: words.trouble, content: json(troubleAnswer) } };
