import type { IncomingMessage } from 'node:http';
import { BlockList, isIP } from 'node:net';
import type { TLSSocket } from 'node:tls';
import type { Certificate, TlsAsked } from './tls.ts';

/** How a request came in. */
export interface Came {
  /** The address it is from, as far as anybody who is trusted says. */
  readonly address: string;
  /** Encrypted all the way from the browser, as far as anybody who is trusted says. */
  readonly encrypted: boolean;
  /** Why it is not answered; undefined where it is. */
  readonly refused?: 'passedBy' | 'cameClear';
}

/** The way in for screens and programs, and what is to be said of it. */
export interface Entrance {
  came(request: Pick<IncomingMessage, 'headers' | 'socket'>): Came;
  /** Screens are served in clear text beyond this machine, and say so. */
  readonly clearText: boolean;
  /** By what they are encrypted; undefined where they are not. */
  readonly by: 'own' | 'files' | 'proxy' | undefined;
  /** When the certificate here expires, milliseconds since 1970; undefined where there is none here. */
  until(): number | undefined;
  /** Whether browsers are told to come by HTTPS alone from then on. */
  strict(): boolean;
}

/** In clear text on this machine alone, and nobody is trusted to speak for another. */
export const plainEntrance: Entrance = createEntrance(undefined, undefined);

/**
 * What comes by a proxy bears who it is from and how it came; from anybody else these words count for nothing. Behind a
 * proxy nobody else is answered, save on this machine itself.
 */
export function createEntrance(asked: TlsAsked | undefined, certificate: Certificate | undefined): Entrance {
  const by = asked === undefined || asked.kind === 'clearText' ? undefined : asked.kind;
  const proxies = proxiesOf(asked);
  const clearProxy = asked?.kind === 'proxy' && asked.clearText;
  return {
    came: ({ headers, socket }) => {
      const address = socket.remoteAddress ?? '';
      const encrypted = (socket as Partial<TLSSocket>).encrypted === true;
      // a proxy of another machine that says nothing has been set up wrong
      const isFar = by === 'proxy' && !isIn(THIS_MACHINE, address);
      if (!isIn(proxies, address) || !(isFar || isForwarded(headers)))
        return { address, encrypted, ...(isFar ? { refused: 'passedBy' as const } : {}) };
      const came = headers['x-forwarded-proto'] === 'https';
      return {
        address: originOf(headers, address, proxies),
        encrypted: came,
        ...(came ? {} : { refused: 'cameClear' as const }),
      };
    },
    clearText: asked?.kind === 'clearText' || clearProxy,
    by,
    until: () => certificate?.current().until,
    // nobody gets past a warning of a browser that was told so: not for a certificate that has to be trusted by hand
    strict: () => by === 'proxy' || (by === 'files' && certificate?.current().ownSigned === false),
  };
}

function isForwarded(headers: IncomingMessage['headers']): boolean {
  return headers['x-forwarded-for'] !== undefined || headers['x-forwarded-proto'] !== undefined;
}

/**
 * Each proxy puts the address that it was asked from at the end. From there on back the first that is no proxy of ours
 * is who asks; what stands before it anybody can have written. What is no address is not believed.
 */
function originOf(headers: IncomingMessage['headers'], asker: string, proxies: BlockList): string {
  const said = String(headers['x-forwarded-for'] ?? '')
    .split(',')
    .map((text) => text.trim());
  let origin = asker;
  for (const address of said.reverse()) {
    if (isIP(address) === 0) return origin;
    origin = address;
    if (!isIn(proxies, address)) return origin;
  }
  return origin;
}

const LOOPBACK = ['127.0.0.0/8', '::1'];
const THIS_MACHINE = listOf(LOOPBACK);

function proxiesOf(asked: TlsAsked | undefined): BlockList {
  if (asked === undefined || asked.kind === 'clearText') return listOf([]);
  const byDefault = asked.kind === 'proxy' ? LOOPBACK : [];
  return listOf(asked.proxies.length > 0 ? asked.proxies : byDefault);
}

/** Addresses and networks, as `isNetwork` takes them. */
function listOf(networks: readonly string[]): BlockList {
  const list = new BlockList();
  for (const network of networks) {
    const [address = '', bits] = network.split('/');
    const family = isIP(address) === 6 ? 'ipv6' : 'ipv4';
    if (bits === undefined) list.addAddress(address, family);
    else list.addSubnet(address, Number(bits), family);
  }
  return list;
}

/** Whether it is an address, or a network written as address and number of bits. */
export function isNetwork(text: string): boolean {
  const [address = '', bits, ...rest] = text.split('/');
  const most = { 4: 32, 6: 128 }[isIP(address)];
  if (most === undefined || address.includes('%') || rest.length > 0) return false;
  return bits === undefined || (/^\d{1,3}$/.test(bits) && Number(bits) <= most);
}

/** Whether all of it is this machine's own. */
export function isThisMachine(network: string): boolean {
  const [address = '', bits] = network.split('/');
  return (
    isIn(THIS_MACHINE, address) && (bits === undefined || Number(bits) >= (isIP(address) === 6 ? 128 : 8))
  );
}

function isIn(list: BlockList, address: string): boolean {
  const plain = address.replace(/%.*$/, '');
  const family = isIP(plain);
  return family !== 0 && list.check(plain, family === 6 ? 'ipv6' : 'ipv4');
}
