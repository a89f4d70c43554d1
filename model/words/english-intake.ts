/** Troubles of the link to a PLC, and what the log says about it. */
export const intakeWords = {
  unreachable: (server: string, endpoint: string) => `The server ${server} does not answer at ${endpoint}.`,
  unreachableWhy: (detail: string) => `The connection could not be opened: ${detail}.`,
  unreachableMend:
    'Check that the PLC is on and its OPC UA server is enabled, and that the address in the line file and the network are right. It is tried again by itself.',
  untrusted: (server: string, fingerprint: string) =>
    `The server ${server} shows a certificate that nobody has trusted yet: ${fingerprint}.`,
  untrustedWhy: (status: string) =>
    `Nothing is read from a server whose certificate is not trusted (${status}).`,
  untrustedMend: (file: string, folder: string) =>
    `Compare the fingerprint with the one the PLC shows. If they are the same, move ${file} to ${folder}; it is tried again by itself.`,
  notTrusted: (server: string) => `The server ${server} does not trust the certificate of Scoreline yet.`,
  notTrustedWhy: (status: string) => `It refused to be read: ${status}.`,
  notTrustedMend: (file: string, fingerprint: string) =>
    `In the PLC’s list of certificates it has refused, trust the one with the fingerprint ${fingerprint}, or bring it there: it is ${file}. It is tried again by itself.`,
  notOffered: (server: string, security: string) =>
    `The server ${server} does not offer the security “${security}”.`,
  notOfferedWhy: 'The line file asks for it, and nothing weaker is used in its place.',
  notOfferedMend:
    'Enable it in the PLC (Basic256Sha256), or choose in the line file what the PLC offers: none, sign or signAndEncrypt.',
  noNamespace: (server: string, namespace: string) => `The server ${server} has no namespace ${namespace}.`,
  noNamespaceWhy: (known: string) => `It knows: ${known}.`,
  noNamespaceMend:
    'Correct the namespace in the line file. A server that is still starting up is tried again by itself.',
  refused: (server: string) => `The server ${server} refused to be read.`,
  refusedWhy: (detail: string) => `It answered: ${detail}.`,
  refusedMend: 'Look in the PLC’s own log; it may have no session free. It is tried again by itself.',
  itemMissing: (tag: string) => `The server has no node ${tag}.`,
  itemUnreadable: (tag: string, code: string) => `The server gives no good value for ${tag} (${code}).`,
  itemWrongType: (tag: string, type: 'number' | 'boolean' | 'text') =>
    `The server sends for ${tag} something else than a ${{ number: 'number', boolean: 'Boolean', text: 'text' }[type]}, as the line file has it.`,
  up: (server: string, whole: boolean) =>
    `The server ${server} is heard${whole ? ' again; nothing was missed' : ''}.`,
  lost: (server: string) => `The server ${server} is not heard.`,
  replaced: (server: string) => `The link to the server ${server} is made anew.`,
  missed: (server: string) => `A message of the server ${server} is missing; every tag is read again.`,
  overflowed: (server: string) =>
    `The server ${server} had more to tell than its queues hold, and dropped some of it; every tag is read again.`,
  clockSet: (server: string, ms: number) =>
    `Somebody set the clock by which the server ${server} is timed: it is now ${Math.round(ms / 1000)} s ahead of line time, which goes on as it was.`,
  notClosed: (server: string, detail: string) => `The link to the server ${server} did not close: ${detail}.`,
} as const;
