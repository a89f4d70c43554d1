/** How the screens are reached encrypted, and what is wrong where they are not. */
export const tlsWords = {
  needed: (host: string) => `Scoreline does not listen on ${host} without encryption.`,
  neededWhy:
    'On the network others could read what is shown, log in as somebody whose code they saw, and change what is entered.',
  neededMend:
    'Give --tls own for a certificate of its own, --tls files for given ones, --tls proxy behind a proxy with HTTPS, or --clear-text to do without, which every screen then says.',
  clearProxy: (address: string) => `What the proxy at ${address} sends here would not be encrypted.`,
  clearProxyWhy:
    'It is another machine, and on the way from it to here others could read and change everything.',
  clearProxyMend:
    'Let the proxy ask by HTTPS, with --tls own or --tls files beside --proxy, or accept it with --clear-text, which every screen then says.',

  badWay: '--tls takes one of own, files and proxy',
  filesTogether: '--tls files takes both --tls-key and --tls-certificate',
  onlyFiles: (option: string) => `${option} goes with --tls files`,
  onlyTls: '--proxy goes with --tls',
  badProxy: (text: string) =>
    `--proxy takes an address, or a network as 192.0.2.0/24, and “${text}” is neither`,
  notBoth: (way: string) => `--clear-text does not go with --tls ${way}`,
  nothingClear: '--clear-text goes with a --host beyond this machine, or with a --proxy beyond it',

  clearText: 'Nothing is encrypted between screens and Scoreline: every screen says so.',
  proxied: (addresses: string) => `Screens are answered by way of a proxy alone, which is at: ${addresses}`,
  thisMachine: 'this machine',
  ownCertificate: (fingerprint: string, until: string) =>
    `Certificate of its own, good until ${until}. Before you trust it, compare its SHA-256: ${fingerprint}`,
  ownFile: (file: string) => `To trust it on a screen, take the certificate from ${file}`,
  given: (fingerprint: string, until: string) =>
    `Given certificate, good until ${until}. Its SHA-256: ${fingerprint}`,

  made: {
    first: 'A key and a certificate were made.',
    damaged: 'The certificate that was there cannot be used: another was made.',
    names: (missing: string) => `Another certificate was made: the one before lacked ${missing}.`,
    expires: (until: string) => `Another certificate was made: the one before is good until ${until} only.`,
    notYet:
      'Another certificate was made: the one before would only be good later, as this machine’s clock has it.',
  },
  notRenewed: 'The certificate could not be renewed; the one before goes on.',

  keyKnown: 'If others may have read it, delete the folder it is in, and another is made.',
  keyBadWhy: 'It is no private key that can be read.',
  elsewhere: (folder: string) => `The folder ${folder} is not used for a key.`,
  elsewhereWhy: 'It is a link, or no folder: the key would be written outside the data folder.',
  elsewhereMend: 'Delete it, and a folder is made in its place.',

  unreadable: (file: string) => `${file} cannot be read.`,
  unreadableMend: 'Check the path, and that the user of Scoreline may read it.',
  tooLong: 'It is longer than any key or certificate.',
  noCertificate: (file: string) => `${file} holds no certificate.`,
  noCertificateWhy:
    'It has to hold certificates as PEM text, that of this machine first, then those that lead to a trusted one.',
  noCertificateMend: 'Give the file with the chain after --tls-certificate.',
  noKey: (file: string) => `${file} holds no private key that can be used.`,
  noKeyWhy: 'It has to hold one private key as PEM text, without a passphrase.',
  noKeyMend: 'Give the file with the key after --tls-key.',
  otherKey: (key: string, certificate: string) =>
    `The key in ${key} does not belong to the certificate in ${certificate}.`,
  otherKeyWhy: 'The first certificate of the file says another public key.',
  otherKeyMend:
    'Give both files of the same certificate; that of this machine has to be the first in its file.',
  over: (file: string, until: string) => `The certificate in ${file} was good until ${until}.`,
  overWhy: 'No browser takes a certificate that has expired.',
  overMend: 'Renew it, or correct the clock of this machine if that is wrong.',
  notYet: (file: string, from: string) => `The certificate in ${file} is good from ${from} on.`,
  notYetWhy: 'No browser takes a certificate before its time.',
  notYetMend: 'Correct the clock of this machine if that is wrong, or wait until then.',
  unfit: (file: string) => `The certificate in ${file} cannot be used.`,
  unfitWhy: (code: string) => `The encryption library refuses it (${code}).`,
  unfitMend: 'Have another one made: an RSA key of 2048 bits or more, or an elliptic curve such as P-256.',

  notCovered: (name: string, covered: string) =>
    `Browsers will warn: the certificate does not name ${name}, only ${covered}.`,
  nothingCovered: 'nothing',
  expiresSoon: (file: string, until: string) => `The certificate in ${file} is good until ${until} only.`,
  hasExpired: (file: string, until: string) =>
    `The certificate in ${file} was good until ${until}: browsers refuse it.`,
  taken: (fingerprint: string, until: string) =>
    `Another certificate is used from now on, good until ${until}. Its SHA-256: ${fingerprint}`,
  notTaken: 'The changed certificate files are not used, and those before go on.',

  plainHere: 'Scoreline is reached by HTTPS here: put https:// before the address.',
  passedBy: {
    what: 'Scoreline is not reached this way.',
    why: 'It stands behind a proxy with HTTPS, and this came past it.',
    mend: 'Use the address of the proxy.',
  },
  cameClear: {
    what: 'This came to the proxy without encryption.',
    why: 'Scoreline was started for HTTPS alone, and the proxy does not say “X-Forwarded-Proto: https”.',
    mend: 'Put https:// before the address; if it stands there, the proxy has to set that header.',
  },

  describe: 'How screens are reached: by which encryption, if any, and how long its certificate is good',
} as const;

/** Stands on every screen that is not encrypted. */
export const clearTextWords = {
  label: 'Encryption',
  mark: 'Not encrypted: others on this network can read and change what is shown and entered here.',
} as const;

/** Keys of our own, in files that only the user of Scoreline reads. */
export const keyWords = {
  notUsed: (file: string) => `The key ${file} is not used.`,
  openWhy: 'Others than its owner may read it, or it belongs to somebody else.',
  openMend: 'Give it back to the user of Scoreline with chmod 600.',
  badMend: 'Put back the one that was there, or delete it, and another is made.',
  unreadable: (file: string) => `${file} cannot be read.`,
  unreadableMend: 'Check that the user of Scoreline may read it.',
  notWritten: (file: string) => `${file} cannot be written.`,
  notWrittenMend: 'Make room, or give a data folder that this user may write to with --data DIR.',
} as const;
