import { X509Certificate } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { isIP } from 'node:net';
import { dirname, join, resolve } from 'node:path';
import { z } from 'zod';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { readAs } from '../api/reading.ts';
import type { Fault, Place } from '../binding/faults.ts';
import { type Path, readSource, type Source } from '../binding/source.ts';
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

/** A mistake in the file of ways, with its place; and the ways that are left out by it. */
export interface WaysFault extends Fault {
  readonly ways: readonly string[];
}

/** What of the file is right, and what is not. */
export interface WaysRead {
  readonly ways: Ways;
  readonly faults: readonly WaysFault[];
  /** Where what a way says stands in the file: its password or key. */
  readonly placeOf: (way: string) => Place;
}

export const WAYS_FILE = 'ways.yaml';

/**
 * Undefined where there is no such file: then no notice goes out. Each way is read by itself: one that is wrong is left out, and
 * the others are there.
 */
export async function readWays(folder: string): Promise<WaysRead | undefined> {
  const path = join(folder, WAYS_FILE);
  if (!existsSync(path)) return undefined;
  try {
    return new Reading(readSource(await readText(path), path, { keysAsWritten: true }), dirname(path)).read();
  } catch (error) {
    if (!(error instanceof LineError)) throw error;
    const fault = { what: error.message, why: error.why, mend: error.mend, at: START, ways: [] };
    return { ways: { webhooks: [], addresses: new Map() }, faults: [fault], placeOf: () => START };
  }
}

const START: Place = { line: 1, column: 1 };
const WEBHOOKS_MOST = 20;
const PARTS = ['mail', 'webhooks', 'push', 'addresses', 'trusted', 'screens'];

/** One reading of the file, part by part. */
class Reading {
  private readonly source: Source;
  private readonly near: string;
  private readonly faults: WaysFault[];
  private readonly places = new Map<string, Place>();

  constructor(source: Source, near: string) {
    this.source = source;
    this.near = near;
    this.faults = source.faults.map((fault) => ({ ...fault, ways: [] }));
  }

  read(): WaysRead {
    const data = this.data();
    for (const key of Object.keys(data))
      if (!PARTS.includes(key)) this.fault(this.source.keyPlace([key]), words.noPart(key), []);
    const mail = this.mail(data.mail);
    const push = this.part(pushPart, data.push, ['push'], ['push']);
    const named = ['page', 'mail', ...(data.push === undefined ? [] : ['push'])];
    const webhooks = this.webhooks(data.webhooks, named);
    const screens = this.part(screensPart, data.screens, ['screens'], []);
    const { isTrusted, trusted } = this.trusted(data.trusted, { mail, webhooks, push });
    const ways: Ways = {
      ...(mail && isTrusted.mail ? { mail } : {}),
      webhooks: webhooks.filter(isTrusted.webhook),
      ...(push && isTrusted.push ? { push } : {}),
      addresses: this.addresses(data.addresses),
      ...(screens === undefined ? {} : { screens: screens.endsWith('/') ? screens : `${screens}/` }),
      ...(trusted === undefined ? {} : { trusted }),
    };
    const faults = this.faults.toSorted((a, b) => a.at.line - b.at.line || a.at.column - b.at.column);
    return { ways, faults, placeOf: (way) => this.places.get(way) ?? START };
  }

  /** An empty file has no ways, and no mistake. */
  private data(): Readonly<Record<string, unknown>> {
    const { data, faults } = this.source;
    if (typeof data === 'object' && data !== null && !Array.isArray(data))
      return data as Readonly<Record<string, unknown>>;
    if (data !== null && faults.length === 0) this.fault(START, words.noMap, []);
    return {};
  }

  private mail(value: unknown): MailSettings | undefined {
    const read = this.part(mail, value, ['mail'], ['mail']);
    if (read === undefined) return undefined;
    this.places.set('mail', this.source.place(['mail', 'logIn', 'password']));
    return mailOf(read, this.placed);
  }

  private webhooks(value: unknown, named: readonly string[]): readonly WebhookSettings[] {
    if (value === undefined || value === null) return [];
    const place = this.source.place(['webhooks']);
    if (!Array.isArray(value)) {
      this.fault(place, words.noList, []);
      return [];
    }
    if (value.length > WEBHOOKS_MOST) this.fault(place, words.tooMany(WEBHOOKS_MOST), []);
    const taken = new Set(named);
    return value.slice(0, WEBHOOKS_MOST).flatMap((one: unknown, index): WebhookSettings[] => {
      const path = ['webhooks', index];
      const read = this.part(webhook, one ?? {}, path, namesIn(one));
      if (read === undefined) return [];
      if (taken.has(read.id)) {
        this.fault(this.source.place([...path, 'id']), words.sameName, []);
        return [];
      }
      taken.add(read.id);
      this.places.set(read.id, this.source.place([...path, 'key']));
      return [{ ...read, key: this.placed(read.key) }];
    });
  }

  private addresses(value: unknown): ReadonlyMap<string, string> {
    const all = value === undefined || value === null ? {} : this.part(anyMap, value, ['addresses'], []);
    return new Map(
      Object.entries(all ?? {}).flatMap(([number, address]): [string, string][] => {
        const path = ['addresses', number];
        const read =
          this.part(person, number, path, []) === undefined
            ? undefined
            : this.part(mailAddress, address, path, []);
        return read === undefined ? [] : [[number, read]];
      }),
    );
  }

  /** Where certificates cannot be read, whatever would be held against them is left out: the system's are none of the plant's. */
  private trusted(value: unknown, { mail, webhooks, push }: Held): Trusting {
    const all = { mail: true, push: true, webhook: () => true };
    if (value === undefined || value === null) return { isTrusted: all };
    const file = this.part(short, value, ['trusted'], []);
    const read = file === undefined ? undefined : certificates(resolve(this.near, file));
    if (read?.text !== undefined) return { isTrusted: all, trusted: read.text };
    const none = {
      mail: mail?.security === 'none',
      push: false,
      webhook: ({ address }: WebhookSettings) => !address.startsWith('https:'),
    };
    const ways = [
      ...(mail && !none.mail ? ['mail'] : []),
      ...webhooks.filter((one) => !none.webhook(one)).map(({ id }) => id),
      ...(push ? ['push'] : []),
    ];
    if (read === undefined) this.leaveOut(ways);
    else this.fault(this.source.place(['trusted']), read.why, ways);
    return { isTrusted: none };
  }

  /** The fault before concerns these as well. */
  private leaveOut(ways: readonly string[]): void {
    const last = this.faults.pop();
    if (last) this.faults.push({ ...last, ways });
  }

  private part<Shape>(
    schema: z.ZodType<Shape>,
    value: unknown,
    path: Path,
    ways: readonly string[],
  ): Shape | undefined {
    if (value === undefined || value === null) return undefined;
    const read = readAs(schema, value);
    if (read.ok) return read.data;
    const within = [...path, ...read.path];
    const { source } = this;
    const at = read.unknown === undefined ? source.place(within) : source.keyPlace([...within, read.unknown]);
    this.fault(at, read.why, ways);
    return undefined;
  }

  private fault(at: Place, why: string, ways: readonly string[]): void {
    this.faults.push({ at, what: words.leftOut(ways), why, mend: words.badMend, ways });
  }

  private readonly placed = (place: SecretPlace): SecretPlace =>
    'file' in place ? { file: resolve(this.near, place.file) } : place;
}

/** What certificates are held against. */
interface Held {
  readonly mail: MailSettings | undefined;
  readonly webhooks: readonly WebhookSettings[];
  readonly push: PushSettings | undefined;
}

interface Trusting {
  readonly isTrusted: {
    readonly mail: boolean;
    readonly push: boolean;
    readonly webhook: (one: WebhookSettings) => boolean;
  };
  readonly trusted?: string;
}

/** What a webhook that does not fit is called all the same. */
function namesIn(one: unknown): readonly string[] {
  const id: unknown = typeof one === 'object' && one !== null && 'id' in one ? one.id : undefined;
  return typeof id === 'string' && HOOK_NAME.test(id) ? [id] : [];
}

function mailOf(
  { logIn, ...rest }: z.infer<typeof mail>,
  placed: (place: SecretPlace) => SecretPlace,
): MailSettings {
  if (logIn === undefined) return rest;
  return { ...rest, logIn: { user: logIn.user, password: placed(logIn.password) } };
}

/** A certificate in such a file, also one that is cut short (RFC 7468, section 5.1). */
const CERTIFICATE = /-----BEGIN CERTIFICATE-----[^-]*(-----END CERTIFICATE-----)?/g;

function certificates(
  path: string,
): { readonly text: string } | { readonly text?: never; readonly why: string } {
  try {
    const text = readFileSync(path, 'utf8');
    const all = text.match(CERTIFICATE) ?? [];
    const broken = all.findIndex((one) => !isCertificate(one));
    if (all.length === 0) return { why: words.certificates(words.noCertificate) };
    return broken < 0 ? { text } : { why: words.certificates(words.brokenCertificate(broken + 1)) };
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    return { why: words.certificates(wordsIn('en').gateway.system.why(code)) };
  }
}

function isCertificate(pem: string): boolean {
  try {
    return new X509Certificate(pem).raw.length > 0;
  } catch {
    return false; // the library's words name no place in the file; which one it is is told
  }
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

const HOOK_NAME = /^[a-z][a-z0-9-]{0,39}$/;
const webhook = z.strictObject({
  id: z.string().regex(HOOK_NAME),
  address: z.string().max(2000).refine(isHookAddress, words.hookAddress),
  key: secretPlace,
});

const screensPart = z.string().max(2000).refine(isHookAddress, words.screensAddress);
const anyMap = z.record(z.string(), z.unknown());

function isHookAddress(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const { protocol, username, password } = new URL(text);
  return (protocol === 'http:' || protocol === 'https:') && username === '' && password === '';
}
