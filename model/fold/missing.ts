/** Names of what may be missing while a gap lasts: a server's link, a signal's value, the heartbeat of the pace's server. */
export const linkMissing = (server: string): string => `link ${server}`;
export const valueMissing = (signal: number): string => `value ${signal}`;
export const HEARTBEAT = 'heartbeat';
