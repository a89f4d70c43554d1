import { existsSync } from 'node:fs';

/** What a Chromium under test is started with: no network of its own, no sandbox that containers refuse. */
export const chromiumFlags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** The Chromium to test with: the one that `gateway/setup/ready.mjs` found or installed. */
export function chromiumPath(): string {
  const candidates = [
    process.env.CHROMIUM,
    '/usr/bin/chromium',
    '/usr/bin/chromium-browser',
    '/usr/bin/google-chrome',
  ];
  const found = candidates.find((path) => path !== undefined && existsSync(path));
  if (found === undefined)
    throw new Error('No Chromium was found. Run npm test, which says how to get one, or set CHROMIUM.');
  return found;
}
