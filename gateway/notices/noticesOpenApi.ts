import { wordsIn } from '../../model/words/words.ts';
import { answer, asked, inPath, json } from '../api/openApiParts.ts';
import { pushPaths } from './ways/pushSchemas.ts';
import { againAnswer, againBody, outboxAnswer, outboxQuery, waysAnswer } from './noticesSchemas.ts';

const words = wordsIn('en').ways.describe;

/** How notices go out, by address. */
export function noticesPaths(): Readonly<Record<string, unknown>> {
  return {
    '/api/notices/outbox': {
      get: { ...answer(words.outbox, outboxAnswer), parameters: asked(outboxQuery) },
    },
    '/api/notices/outbox/{letter}/again': {
      post: {
        ...answer(words.again, againAnswer, '202'),
        parameters: [inPath('letter')],
        requestBody: { required: true, content: json(againBody) },
      },
    },
    ...pushPaths(),
    '/api/notices/ways': { get: answer(words.ways, waysAnswer) },
  };
}
