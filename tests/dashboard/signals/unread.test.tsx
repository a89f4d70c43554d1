import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { Unread } from '../../../dashboard/signals/unread.tsx';

const stretch = (hour: number) => ({
  from: hour * 1000,
  at: {
    from: Date.parse(`2026-03-16T0${hour}:00:00Z`),
    to: Date.parse(`2026-03-16T0${hour}:10:00Z`),
  },
  trouble: { what: `Damaged at ${hour}.`, why: 'The disk.', mend: 'Put the backup back.' },
});

it('[TP5] the Signals screen says which time is unknown because its tape cannot be read, and what can be done', () => {
  const html = renderToStaticMarkup(<Unread stretches={[stretch(5)]} zone="Europe/Berlin" />);
  for (const text of [
    'A stretch of the tape cannot be read',
    'Unknown: from 06:00 on Mon 16 Mar to 06:10 on Mon 16 Mar.',
    'Damaged at 5.',
    'Mend: Put the backup back.',
  ])
    expect(html).toContain(text);
});

it('[TP5] of many the newest are told one by one, and all are counted', () => {
  const many = [1, 2, 3, 4, 5, 6, 7, 8].map(stretch);
  const html = renderToStaticMarkup(<Unread stretches={many} zone="Europe/Berlin" />);
  expect(html).toContain('8 stretches of the tape cannot be read');
  expect(html).not.toContain('Damaged at 2.');
  expect(html).toContain('Damaged at 3.');
});
