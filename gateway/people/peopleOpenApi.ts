import type { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import { answer, inPath, json } from '../api/openApiParts.ts';
import {
  addBody,
  adminBody,
  changeBody,
  codeAnswer,
  doneAnswer,
  logInBody,
  peopleAnswer,
  secretBody,
  sessionAnswer,
  settingsBody,
} from './peopleSchemas.ts';

const words = wordsIn('en').people.describe;

/** Log-in and people, by address. */
export function peoplePaths(): Readonly<Record<string, unknown>> {
  const number = { parameters: [inPath('number')] };
  return {
    '/api/session': {
      get: answer(words.whoAmI, sessionAnswer),
      post: { ...answer(words.logIn, doneAnswer, '201'), ...body(logInBody) },
      delete: answer(words.logOut, doneAnswer),
    },
    '/api/session/admin': { post: { ...answer(words.admin, doneAnswer, '201'), ...body(adminBody) } },
    '/api/session/secret': { put: { ...answer(words.secret, doneAnswer), ...body(secretBody) } },
    '/api/session/here': { post: answer(words.here, doneAnswer) },
    '/api/people': {
      get: answer(words.list, peopleAnswer),
      post: { ...answer(words.add, codeAnswer, '201'), ...body(addBody) },
    },
    '/api/people/settings': {
      get: answer(words.settings, settingsBody),
      put: { ...answer(words.settings, doneAnswer), ...body(settingsBody) },
    },
    '/api/people/{number}': {
      patch: { ...answer(words.change, doneAnswer), ...number, ...body(changeBody) },
    },
    '/api/people/{number}/name': { delete: { ...answer(words.eraseName, doneAnswer), ...number } },
    '/api/people/{number}/code': { post: { ...answer(words.newCode, codeAnswer, '201'), ...number } },
    '/api/people/{number}/sessions': { delete: { ...answer(words.endSessions, doneAnswer), ...number } },
    '/api/people/{number}/held': { delete: { ...answer(words.release, doneAnswer), ...number } },
  };
}

function body(schema: z.ZodType) {
  return { requestBody: { required: true, content: json(schema) } };
}
