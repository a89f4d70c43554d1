import { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import { figureDefinition } from './figuresSchema.ts';
import { lineNoticesPaths } from '../notices/lineNoticesSchema.ts';
import { noticesPaths } from '../notices/noticesOpenApi.ts';
import { peoplePaths } from '../people/peopleOpenApi.ts';
import { encryptionPaths } from '../tls/guard.ts';
import { newEntrySchema } from './entrySchema.ts';
import { answer, asked, json, line } from './openApiParts.ts';
import { exportPaths } from '../export/exportSchema.ts';
import { pastPaths } from './pastOpenApi.ts';
import {
  changesAnswer,
  changesQuery,
  entryAnswer,
  healthAnswer,
  lineRow,
  serverRow,
  signalRow,
  unreadRow,
} from './schemas.ts';
import { sheetsAhead } from './sheetsAheadSchema.ts';
import { tapePaths } from './tapeOpenApi.ts';
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
      '/api/lines/{line}/sheets/ahead': {
        get: { ...answer(words.sheetsAhead, sheetsAhead), parameters: [line] },
      },
      '/api/lines/{line}/signals': {
        get: { ...answer(words.signals, z.array(signalRow)), parameters: [line] },
      },
      '/api/lines/{line}/servers': {
        get: { ...answer(words.servers, z.array(serverRow)), parameters: [line] },
      },
      '/api/lines/{line}/unread': {
        get: { ...answer(words.unread, z.array(unreadRow)), parameters: [line] },
      },
      '/api/lines/{line}/changes': {
        get: {
          ...answer(words.changes, changesAnswer),
          parameters: [line, ...asked(changesQuery)],
        },
      },
      ...tapePaths(),
      '/api/figures': { get: answer(words.figures, z.array(figureDefinition)) },
      ...pastPaths(),
      ...exportPaths(),
      ...noticesPaths(),
      ...lineNoticesPaths(),
      ...peoplePaths(),
      ...encryptionPaths(),
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
