import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Certificate {
  readonly key: string;
  readonly cert: string;
}

/** A certificate that nobody but a test has ever trusted, for a name or address. */
export function certificateFor(name: string): Certificate {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-certificate-'));
  try {
    const key = join(folder, 'key.pem');
    const cert = join(folder, 'cert.pem');
    const kind = /^[\d.]+$/.test(name) ? 'IP' : 'DNS';
    const made = [
      'req',
      '-x509',
      '-newkey',
      'ec',
      '-pkeyopt',
      'ec_paramgen_curve:prime256v1',
      '-nodes',
      '-days',
      '2',
    ];
    const named = ['-subj', `/CN=${name}`, '-addext', `subjectAltName=${kind}:${name}`];
    execFileSync('openssl', [...made, ...named, '-keyout', key, '-out', cert], { stdio: 'pipe' });
    return { key: readFileSync(key, 'utf8'), cert: readFileSync(cert, 'utf8') };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
