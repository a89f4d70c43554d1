import { resolve } from 'node:path';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { isNetwork, isThisMachine } from '../tls/entrance.ts';
import type { TlsAsked } from '../tls/tls.ts';
import { badOption } from './badOption.ts';
import { isLoopback } from './web.ts';

const words = wordsIn('en').gateway.tls;

export interface TlsValues {
  readonly tls?: string;
  readonly 'tls-key'?: string;
  readonly 'tls-certificate'?: string;
  readonly proxy?: readonly string[];
  readonly 'clear-text'?: boolean;
}

/**
 * How screens are to be reached, from the command line. Beyond this machine without encryption is refused unless it is
 * said that this is wanted, and so is what would do nothing.
 */
export function readTls(values: TlsValues, host: string): TlsAsked | undefined {
  const asked = askedOf(values);
  if (asked?.kind === 'clearText' && isLoopback(host)) throw badOption(words.nothingClear);
  if (asked?.kind === 'proxy') refuseClearProxy(asked);
  if (asked !== undefined || isLoopback(host)) return asked;
  throw new LineError(words.needed(host), { why: words.neededWhy, mend: words.neededMend });
}

function askedOf(values: TlsValues): TlsAsked | undefined {
  const { tls, proxy: proxies = [], 'clear-text': clearText = false } = values;
  for (const one of proxies) if (!isNetwork(one)) throw badOption(words.badProxy(one));
  if (tls !== 'files')
    for (const option of ['tls-key', 'tls-certificate'] as const)
      if (values[option] !== undefined) throw badOption(words.onlyFiles(`--${option}`));
  switch (tls) {
    case undefined:
      if (proxies.length > 0) throw badOption(words.onlyTls);
      return clearText ? { kind: 'clearText' } : undefined;
    case 'proxy':
      return { kind: 'proxy', proxies, clearText };
    case 'own':
    case 'files':
      if (clearText) throw badOption(words.notBoth(tls));
      return tls === 'own' ? { kind: 'own', proxies } : filesOf(values, proxies);
    default:
      throw badOption(words.badWay);
  }
}

function filesOf(values: TlsValues, proxies: readonly string[]): TlsAsked {
  const { 'tls-key': key = '', 'tls-certificate': certificate = '' } = values;
  if (key.trim() === '' || certificate.trim() === '') throw badOption(words.filesTogether);
  return { kind: 'files', key: resolve(key), certificate: resolve(certificate), proxies };
}

/** A proxy on another machine that asks in clear text is clear text on the network. */
function refuseClearProxy({ proxies, clearText }: Extract<TlsAsked, { readonly kind: 'proxy' }>): void {
  const far = proxies.find((one) => !isThisMachine(one));
  if (far === undefined && clearText) throw badOption(words.nothingClear);
  if (far === undefined || clearText) return;
  throw new LineError(words.clearProxy(far), { why: words.clearProxyWhy, mend: words.clearProxyMend });
}
