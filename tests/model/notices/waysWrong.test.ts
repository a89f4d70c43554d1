import { expect, it } from 'vitest';
import { viewOf } from '../../../model/view/lineView.ts';
import { at } from '../smallLine.ts';
import { Noticed } from './noticeRows.ts';

it('[NR4] what is wrong in the file of ways is among what a person should know, until it is mended', () => {
  const { fold } = new Noticed();
  const waysWrong = { line: 7, what: 'The way pager is left out.', mend: 'Correct it.', more: 0 };
  const servers = [{ id: 'plc', up: true }];
  const mattersOf = (outside: Parameters<typeof viewOf>[2]) =>
    viewOf(fold, at(20), outside).matters.filter(({ kind }) => kind === 'waysWrong');
  expect(mattersOf({ servers, waysWrong })).toEqual([{ kind: 'waysWrong', ...waysWrong }]);
  expect(mattersOf({ servers })).toEqual([]);
});
