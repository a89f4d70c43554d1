import { count, many } from './english-say.ts';

/** An open page that sounds for notices. */
export const noticeSoundWords = {
  switch: { off: 'Sound off', on: 'Sound on', touch: 'Sound waits' },
  title: {
    off: 'Lets this page sound for notices that call somebody. A page sounds only once it has been touched.',
    on: 'This page sounds for notices that call somebody, once each; urgent ones again every 30 s until taken. It has to stay open.',
    touch: 'This page is to sound for notices. Touch it once: until then it cannot.',
  },
  refused: 'This browser does not let the page sound.',
  more: (n: number) => `${count(n)} more ${many(n, 'is', 'are')} not taken`,
} as const;
