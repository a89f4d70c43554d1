import { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import { answer, asked, bytes, inPath, line } from './openApiParts.ts';
import { piece, piecesQuery, stateAnswer, stretchAnswer, stretchQuery } from './tapeSchema.ts';

const words = wordsIn('en').gateway.api.describe.tapeOf;

/** What is answered of a line's tape, by address. */
export function tapePaths(): Readonly<Record<string, unknown>> {
  const tape = '/api/lines/{line}/tape';
  return {
    [tape]: { get: { ...answer(words.stretch, stretchAnswer), parameters: [line, ...asked(stretchQuery)] } },
    [`${tape}/pieces`]: {
      get: { ...answer(words.pieces, z.array(piece)), parameters: [line, ...asked(piecesQuery)] },
    },
    [`${tape}/bytes`]: { get: { ...bytes(words.together), parameters: [line, ...asked(piecesQuery)] } },
    [`${tape}/pieces/{position}`]: { get: { ...bytes(words.piece), parameters: [line, inPath('position')] } },
    [`${tape}/pieces/{position}/stand-in`]: {
      get: { ...bytes(words.standIn), parameters: [line, inPath('position')] },
    },
    [`${tape}/states/{position}`]: {
      get: { ...answer(words.state, stateAnswer), parameters: [line, inPath('position')] },
    },
  };
}
