import { z } from 'zod';
import { newEntrySchema } from './entrySchema.ts';
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

/** The interface as OpenAPI 3.1, made from the schemas that the routes themselves read with. */
export function openApi(): unknown {
  return {
    openapi: '3.1.0',
    info: {
      title: 'Scoreline',
      version: '1',
      description:
        'What cartoning lines do. Nothing here reaches a machine: it reads, and records what people enter.',
    },
    paths: {
      '/healthz': { get: answer('Whether every line is heard', healthAnswer) },
      '/api/lines': { get: answer('The lines', z.array(lineRow)) },
      '/api/lines/{line}/view': {
        get: { ...answer('What the Line screen shows now', lineView), parameters: [line] },
      },
      '/api/lines/{line}/orders': {
        get: { ...answer('Orders known', z.array(order)), parameters: [line] },
      },
      '/api/lines/{line}/signals': {
        get: { ...answer('Every signal as it reads now', z.array(signalRow)), parameters: [line] },
      },
      '/api/lines/{line}/servers': {
        get: { ...answer('Every OPC UA server as it is heard now', z.array(serverRow)), parameters: [line] },
      },
      '/api/lines/{line}/changes': {
        get: {
          ...answer('Changes on the tape by position, at most 10,000', changesAnswer),
          parameters: [line, position('from'), position('to')],
        },
      },
      '/api/lines/{line}/entries': {
        post: {
          ...answer(
            'An entry of a person; answered once it is durable. The same id counts once',
            entryAnswer,
            '201',
          ),
          parameters: [line],
          requestBody: { required: true, content: json(newEntrySchema) },
        },
      },
    },
  };
}

const line = { name: 'line', in: 'path', required: true, schema: { type: 'string' } };

function position(name: string) {
  return { name, in: 'query', required: false, schema: { type: 'integer', minimum: 0 } };
}

function answer(summary: string, schema: z.ZodType, code = '200') {
  return {
    summary,
    responses: {
      [code]: { description: summary, content: json(schema) },
      '4XX': { description: 'What was wrong, why, and how to mend it', content: json(troubleAnswer) },
    },
  };
}

function json(schema: z.ZodType) {
  return { 'application/json': { schema: z.toJSONSchema(schema) } };
}
