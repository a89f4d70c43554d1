import { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import { newEntrySchema } from './entrySchema.ts';
import { pastOverview, screenAnswer, stopsAnswer } from './pastSchemas.ts';
import {
  changesAnswer,
  entryAnswer,
  healthAnswer,
  lineRow,
  serverRow,
  signalRow,
  troubleAnswer,
} from './schemas.ts';
import { order } from './viewParts.ts';
import { lineView } from './viewSchema.ts';

const words = wordsIn('en').gateway.api.describe;

/** The interface as OpenAPI 3.1, made from the schemas that the routes themselves read with. */
export function openApi(): unknown {
  return {
    openapi: '3.1.0',
    info: {
      title: words.title,
      version: '1',
      description: words.about,
    },
    paths: {
      '/healthz': { get: answer(words.health, healthAnswer) },
      '/api/lines': { get: answer(words.lines, z.array(lineRow)) },
      '/api/lines/{line}/view': {
        get: { ...answer(words.view, lineView), parameters: [line] },
      },
      '/api/lines/{line}/orders': {
        get: { ...answer(words.orders, z.array(order)), parameters: [line] },
      },
      '/api/lines/{line}/signals': {
        get: { ...answer(words.signals, z.array(signalRow)), parameters: [line] },
      },
      '/api/lines/{line}/servers': {
        get: { ...answer(words.servers, z.array(serverRow)), parameters: [line] },
      },
      '/api/lines/{line}/changes': {
        get: {
          ...answer(words.changes, changesAnswer),
          parameters: [line, position('from'), position('to')],
        },
      },
      '/api/lines/{line}/past': { get: { ...answer(words.past, pastOverview), parameters: [line] } },
      '/api/lines/{line}/past/stops': {
        get: {
          ...answer(words.pastStops, stopsAnswer),
          parameters: [
            line,
            moment('from'),
            moment('to'),
            ...['station', 'size', 'shift', 'order'].map(name),
          ],
        },
      },
      ...Object.fromEntries(
        (['stops', 'safety'] as const).map((screen) => [
          `/api/lines/{line}/past/${screen}.csv`,
          { get: { ...file(words.pastFiles[screen]), parameters: [line, moment('from'), moment('to')] } },
        ]),
      ),
      ...Object.fromEntries(
        (['stations', 'safety', 'changeovers'] as const).map((screen) => [
          `/api/lines/{line}/past/${screen}`,
          {
            get: {
              ...answer(words.pastScreens[screen], screenAnswer),
              parameters: [line, moment('from'), moment('to')],
            },
          },
        ]),
      ),
      '/api/lines/{line}/entries': {
        post: {
          ...answer(words.entries, entryAnswer, '201'),
          parameters: [line],
          requestBody: { required: true, content: json(newEntrySchema) },
        },
      },
    },
  };
}

const line = { name: 'line', in: 'path', required: true, schema: { type: 'string' } };

/** Milliseconds since 1970. */
function moment(of: string) {
  return { name: of, in: 'query', required: false, schema: { type: 'integer' } };
}

function name(of: string) {
  return { name: of, in: 'query', required: false, schema: { type: 'string' } };
}

function position(name: string) {
  return { name, in: 'query', required: false, schema: { type: 'integer', minimum: 0 } };
}

function answer(summary: string, schema: z.ZodType, code = '200') {
  return {
    summary,
    responses: {
      [code]: { description: summary, content: json(schema) },
      '4XX': { description: words.trouble, content: json(troubleAnswer) },
    },
  };
}

/** Comma-separated values (RFC 4180) with a row of titles. */
function file(summary: string) {
  return {
    summary,
    responses: {
      '200': { description: summary, content: { 'text/csv': { schema: { type: 'string' } } } },
      '4XX': { description: words.trouble, content: json(troubleAnswer) },
    },
  };
}

function json(schema: z.ZodType) {
  return { 'application/json': { schema: z.toJSONSchema(schema) } };
}
