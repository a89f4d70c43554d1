/** Notices by a browser's push service: what is asked, refused and shown where one turns it on. */
export const pushWords = {
  subject:
    'The subject of push is mailto: and an address, or an https:// address: by it a push service reaches who runs this.',
  service: 'A push service is named by its host name alone.',

  begun: (subject: string) =>
    `Web push is set up for ${subject}: it needs the internet here and on each phone, and HTTPS with a certificate that the phone trusts.`,
  notEncrypted:
    'Web push is set up, but screens are not reached by HTTPS: no browser but one on this machine turns it on. Start with --tls files or --tls proxy.',
  keyKnown: 'If others may have read it, delete it: another is made, and everybody turns push on again.',
  keyBadWhy: 'It does not hold the two keys of push.',

  off: {
    what: 'Push is not set up here.',
    why: 'The file of ways has no part named push.',
    mend: 'Whoever looks after Scoreline sets it up; gateway/notices/ways/README.md says how.',
  },
  needsOwn: {
    what: 'Push is turned on for somebody who is logged in.',
    why: 'Notices go to people, by their numbers.',
    mend: 'Log in first, with a code or password of your own.',
  },
  otherService: (host: string) => ({
    what: `This browser’s push service ${host} is not used here.`,
    why: 'The gateway sends only to push services that the file of ways names, or to host names on the internet.',
    mend: 'Whoever looks after Scoreline can name it under push, services.',
  }),
  badKeys: {
    what: 'This browser’s keys for push do not fit.',
    why: 'They are none of those that web push encrypts with.',
    mend: 'Turn push off and on again in this browser.',
  },
  unknown: {
    what: 'There is no such browser among yours.',
    why: 'It was turned off, or its push service gave it up.',
    mend: 'Look again at what is on.',
  },

  describe: {
    state:
      'Whether notices go out by push, the public key to subscribe with, and one’s own browsers that take them',
    add: 'One’s own browser takes notices from now on, as its push service told it',
    remove: 'One’s own browser takes none any more',
  },
} as const;

const needs =
  'It needs the internet here and on the gateway: a notice goes by the push service of this browser’s maker, encrypted so that only this browser reads it. It can come late or not at all; a page that is open tells too.';

/** Where a person turns push on, on a phone or at a desk. */
export const ownPushWords = {
  title: 'Notices here by push',
  needs,
  turnOn: 'Tell me here',
  turnOff: 'No longer here',
  busy: 'Asking …',
  isOn: 'Notices that are for you are shown here, also while this page is closed.',
  isOff: 'Nothing is told here while this page is closed.',
  elsewhere: (n: number) =>
    n === 1
      ? 'They are shown in one other browser of yours.'
      : `They are shown in ${n} other browsers of yours.`,
  turnOffElsewhere: 'No longer there',
  notSecure:
    'This page did not come by HTTPS with a certificate that is trusted here: without that no browser takes notices.',
  notThere:
    'This browser takes no notices by push. On some phones it does once this page is on the home screen, and is opened there.',
  denied:
    'This browser was told to show nothing of this page: allow notifications for it in its settings first.',
  failed: 'The push service is not reached, or refused, or this browser was not allowed to show notices.',
} as const;
