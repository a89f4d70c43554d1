import type { Logger } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { dayOf, fingerprintOf, type Held } from './held.ts';
import { givenCertificate } from './givenCertificate.ts';
import { namesOf, type NamesWish } from './names.ts';
import { openOwnCertificate } from './ownCertificate.ts';

const words = wordsIn('en').gateway.tls;

/** How screens are to be reached. Without it: in clear text, on this machine alone. */
export type TlsAsked =
  | { readonly kind: 'clearText' }
  | { readonly kind: 'own'; readonly proxies: readonly string[] }
  | {
      readonly kind: 'files';
      readonly key: string;
      readonly certificate: string;
      readonly proxies: readonly string[];
    }
  | { readonly kind: 'proxy'; readonly proxies: readonly string[]; readonly clearText: boolean };

/** A key and certificate as the port's server takes them. */
export interface Secure {
  readonly key: string;
  readonly cert: string;
}

/** The certificate of the port, kept up while the gateway runs. */
export interface Certificate {
  current(): Held;
  /** Looks whether there is, or has to be, another one, and hands it over. */
  look(): Promise<void>;
  /** Looks from time to time; `take` gets what is used from then on. */
  follow(take: (secure: Secure) => void): void;
  stop(): void;
}

export interface TlsParts extends NamesWish {
  readonly data: string;
  readonly now: () => number;
  readonly log: Pick<Logger, 'info' | 'warn'>;
  readonly say: (text: string) => void;
}

/** Where a certificate comes from. */
export interface Source {
  readonly first: Held;
  /** Another one; undefined where nothing has changed. Refuses with words what does not fit. */
  next(): Promise<Held | undefined>;
  /** What people should know of the one in use, once a day at most. */
  warnings(held: Held): readonly string[];
  /** Said in the log where the next one is refused. */
  readonly refused: string;
}

/** How often it is looked whether files have changed or a certificate is due. Milliseconds. */
const LOOK_MS = 60_000;
const DAY_MS = 86_400_000;

/** The certificate that is asked for; undefined where the port speaks plain HTTP. */
export async function openCertificate(
  asked: TlsAsked | undefined,
  parts: TlsParts,
): Promise<Certificate | undefined> {
  if (asked?.kind !== 'own' && asked?.kind !== 'files') return undefined;
  const names = namesOf(parts);
  const source =
    asked.kind === 'own'
      ? await openOwnCertificate({ ...parts, names })
      : await givenCertificate(asked, { ...parts, names });
  return followed(source, parts);
}

/** What people should know of how screens are reached, beside the certificate. */
export function tellWay(asked: TlsAsked | undefined, say: (text: string) => void): void {
  const clearText = asked?.kind === 'clearText' || (asked?.kind === 'proxy' && asked.clearText);
  if (asked?.kind === 'proxy') say(words.proxied(asked.proxies.join(', ') || words.thisMachine));
  if (clearText) say(words.clearText);
}

function followed(source: Source, { now, log }: TlsParts): Certificate {
  let held = source.first;
  let take: ((secure: Secure) => void) | undefined;
  let timer: NodeJS.Timeout | undefined;
  let warned = Number.NEGATIVE_INFINITY;
  const warn = () => {
    if (Math.abs(now() - warned) < DAY_MS) return;
    const told = source.warnings(held);
    if (told.length > 0) warned = now();
    for (const one of told) log.warn(one);
  };
  let said: string | undefined;
  const look = async () => {
    const next = await source.next().catch((error: unknown) => {
      const why = refusal(source, error);
      // once, and not at each look, as long as it is the same
      if (why !== said) log.warn(why);
      said = why;
      return undefined;
    });
    if (next) said = undefined;
    if (next) {
      held = next;
      take?.(next);
      warned = Number.NEGATIVE_INFINITY;
      log.warn(words.taken(fingerprintOf(next), dayOf(next.until)));
    }
    warn();
  };
  warn();
  return {
    current: () => held,
    look,
    follow: (given) => {
      take = given;
      timer = setInterval(() => void look(), LOOK_MS);
      timer.unref();
    },
    stop: () => clearInterval(timer),
  };
}

/** What a person can mend is told, and the one before goes on; a mistake of our own is not swallowed. */
function refusal({ refused }: Source, error: unknown): string {
  if (!(error instanceof LineError)) throw error;
  return `${refused} ${error.message} ${error.why} ${error.mend}`;
}
