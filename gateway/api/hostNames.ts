import { hostname } from 'node:os';

/** Whether a request's Host header names this gateway. */
export type KnownHost = (host: string | undefined) => boolean;

/**
 * A page of another site can let its own name point to this machine, and would then read and enter here as if it were
 * ours. It cannot hide that name: so a request must name an address, this machine, or a name given at the start.
 * A program that names none (HTTP 1.0) is let in; browsers always do.
 */
export function knownHost(names: readonly string[], machine = hostname()): KnownHost {
  const own = machine.toLowerCase();
  const known = new Set(['localhost', own, own.split('.')[0], ...names.map((name) => name.toLowerCase())]);
  return (host) => {
    if (host === undefined) return true;
    const name = nameOf(host);
    return name !== undefined && (known.has(name) || isAddress(name));
  };
}

/** Without the port; undefined for what is no host at all. */
function nameOf(host: string): string | undefined {
  return URL.canParse(`http://${host}/`) ? new URL(`http://${host}/`).hostname : undefined;
}

/** As the URL standard writes them: an IPv6 address in brackets, any IPv4 address in four decimal parts. */
function isAddress(name: string): boolean {
  return name.startsWith('[') || /^\d+\.\d+\.\d+\.\d+$/.test(name);
}
