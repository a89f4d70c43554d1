import { existsSync, readFileSync } from 'node:fs';
import { isIP } from 'node:net';
import { dirname, join, resolve } from 'node:path';
import { parse, YAMLParseError } from 'yaml';
import { z } from 'zod';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { readAs } from '../api/reading.ts';
import { readText } from '../binding/textFile.ts';
import { person } from './recipientsSchema.ts';
import type { MailSettings } from './ways/mail.ts';
import { pushPart, type PushSettings } from './ways/pushSettings.ts';
import type { SecretPlace } from './ways/secret.ts';
import type { WebhookSettings } from './ways/webhook.ts';

const words = wordsIn('en').ways.file;

/** The ways by which notices go out, from `ways.yaml` in the data folder. It names places of secrets, never secrets. */
export interface Ways {
  readonly mail?: MailSettings;
  readonly webhooks: readonly WebhookSettings[];
  readonly push?: PushSettings;
  /** Mail addresses by people's numbers: only here, so that a person can be erased by a line of this file. */
  readonly addresses: ReadonlyMap<string, string>;
  /** Where people reach the screens, for the links in notices; ends with a slash. Undefined where the address of this machine will do. */
  readonly screens?: string;
  /** Certificates that are trusted in place of the system's (PEM). */
  readonly trusted?: string;
}

/** Undefined where there is no such file: then no notice goes out. */
export async function readWays(folder: string): Promise<Ways | undefined> {
  const path = join(folder, 'ways.yaml');
  if (!existsSync(path)) return undefined;
  const read = readAs(waysFile, yamlOf(await readText(path), path));
  if (!read.ok) throw unfit(path, read.why);
  const { mail, webhooks, push, addresses, trusted, screens } = read.data;
  const near = dirname(path);
  const placed = (place: SecretPlace): SecretPlace =>
    'file' in place ? { file: resolve(near, place.file) } : place;
  return {
    ...(mail === undefined ? {} : { mail: mailOf(mail, placed) }),
    webhooks: webhooks.map((one) => ({ ...one, key: placed(one.key) })),
    ...(push === undefined ? {} : { push }),
    addresses: new Map(Object.entries(addresses)),
    ...(screens === undefined ? {} : { screens: screens.endsWith('/') ? screens : `${screens}/` }),
    ...(trusted === undefined ? {} : { trusted: certificates(resolve(near, trusted)) }),
  };
}

function mailOf(
  { logIn, ...rest }: z.infer<typeof mail>,
  placed: (place: SecretPlace) => SecretPlace,
): MailSettings {
  if (logIn === undefined) return rest;
  return { ...rest, logIn: { user: logIn.user, password: placed(logIn.password) } };
}

function yamlOf(text: string, path: string): unknown {
  try {
    return parse(text, { schema: 'core', logLevel: 'error', maxAliasCount: 0, stringKeys: true });
  } catch (error) {
    if (error instanceof YAMLParseError) throw unfit(path, words.badYaml(error.linePos?.[0].line ?? 1));
    if (error instanceof ReferenceError) throw unfit(path, words.badYaml(1));
    throw error;
  }
}

function certificates(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw unfit(path, wordsIn('en').gateway.system.why(code));
  }
}

function unfit(path: string, why: string): LineError {
  return new LineError(words.bad(path), { why, mend: words.badMend });
}

const short = z.string().min(1).max(200);
const secretPlace = z.union([
  z.strictObject({ env: z.string().regex(/^[A-Za-z_][A-Za-z0-9_]{0,99}$/) }),
  z.strictObject({ file: short }),
]);
/** One plain address: no list, no name, nothing that could end a line of a mail's head. */
const mailAddress = z
  .string()
  .max(254)
  .refine((text) => /^[^\s@<>()[\],;:\\"]+@[A-Za-z0-9.-]+$/.test(text), words.mailAddress);

const mail = z
  .strictObject({
    host: short.refine((host) => isIP(host) !== 0 || /^[A-Za-z0-9.-]+$/.test(host), words.host),
    port: z.int().min(1).max(65_535),
    security: z.enum(['tls', 'startTls', 'none']),
    from: mailAddress,
    logIn: z.strictObject({ user: short, password: secretPlace }).optional(),
  })
  .refine(({ security, logIn }) => security !== 'none' || logIn === undefined, words.clearPassword);

const webhook = z.strictObject({
  id: z.string().regex(/^[a-z][a-z0-9-]{0,39}$/),
  address: z.string().max(2000).refine(isHookAddress, words.hookAddress),
  key: secretPlace,
});

const waysFile = z
  .strictObject({
    mail: mail.optional(),
    webhooks: z.array(webhook).max(20).default([]),
    push: pushPart.optional(),
    addresses: z.record(person, mailAddress).default({}),
    trusted: short.optional(),
    screens: z.string().max(2000).refine(isHookAddress, words.hookAddress).optional(),
  })
  .refine(({ webhooks, push }) => {
    const names = ['page', 'mail', ...(push ? ['push'] : []), ...webhooks.map(({ id }) => id)];
    return new Set(names).size === names.length;
  }, words.sameName);

function isHookAddress(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const { protocol, username, password } = new URL(text);
  return (protocol === 'http:' || protocol === 'https:') && username === '' && password === '';
}
