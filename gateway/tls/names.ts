import { hostname, networkInterfaces } from 'node:os';
import { isIP } from 'node:net';
import { domainToASCII } from 'node:url';
import type { Name } from './held.ts';

export interface NamesWish {
  /** Where it listens. */
  readonly host: string;
  /** Names given at the start. */
  readonly names: readonly string[];
  /** What this machine is called, and its addresses; a test brings its own. */
  readonly machine?: Machine;
}

export interface Machine {
  readonly name: string;
  readonly addresses: readonly string[];
}

/** By what browsers may call this machine. */
export interface Names {
  /** Everything that a certificate of our own names. */
  readonly all: readonly Name[];
  /** Of these, what does not change by itself: for one that is missing another certificate is worth its comparing. */
  readonly lasting: readonly Name[];
  /** What people were told to call it by. */
  readonly told: readonly Name[];
}

const EVERYWHERE = ['0.0.0.0', '::'];

/**
 * Names given at the start, this machine's own with and without its domain, its addresses where it listens on all of
 * them, and itself. What no certificate can name is left out.
 */
export function namesOf({ host, names, machine = thisMachine() }: NamesWish): Names {
  const given = names.map(nameOf);
  const own = [machine.name, machine.name.split('.')[0] ?? ''].map(nameOf);
  const at = EVERYWHERE.includes(host) ? [] : [nameOf(host)];
  const addresses = (EVERYWHERE.includes(host) ? machine.addresses : []).map(nameOf);
  const self = ['localhost', '127.0.0.1', '::1'].map(nameOf);
  const all = unique([...given, ...at, ...own, ...addresses, ...self]);
  const told = unique([...given, ...at]);
  return {
    all,
    // of IPv6 a machine takes itself another address every day (RFC 8981)
    lasting: all.filter(({ kind, value }) => kind === 'dns' || !value.includes(':')),
    told: told.length > 0 ? told : unique(own),
  };
}

function nameOf(text: string): Name | undefined {
  const plain = text.trim().replace(/^\[(.*)\]$/, '$1');
  if (isIP(plain) !== 0) return plain.includes('%') ? undefined : { kind: 'ip', value: plain };
  const value = domainToASCII(plain).toLowerCase().replace(/\.$/, '');
  return HOST_NAME.test(value) ? { kind: 'dns', value } : undefined;
}

/** Letters, digits and hyphens between full stops (RFC 1123, 2.1). */
const HOST_NAME =
  /^(?=.{1,253}$)[a-z0-9_]([a-z0-9_-]{0,61}[a-z0-9_])?(\.[a-z0-9_]([a-z0-9_-]{0,61}[a-z0-9_])?)*$/;

function unique(names: readonly (Name | undefined)[]): Name[] {
  const found = new Map<string, Name>();
  for (const name of names) if (name) found.set(name.value, name);
  return [...found.values()];
}

/** Without addresses that reach no further than one cable. */
function thisMachine(): Machine {
  const addresses = Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .filter(({ internal, address }) => !internal && !/^(fe[89ab].:|169\.254\.)/i.test(address))
    .map(({ address }) => address);
  return { name: hostname(), addresses };
}
