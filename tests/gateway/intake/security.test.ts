import { X509Certificate } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { DataType } from 'node-opcua';
import { expect, it } from 'vitest';
import { moment, record, until } from './fixture.ts';
import { startTestServer } from './testServer.ts';

it('an unknown server certificate is refused with its fingerprint, and heard once a person trusts it', {
  timeout: 240_000,
}, async () => {
  const server = await startTestServer({ tags: { State: DataType.Int32 } });
  server.set('State', 6, moment());
  const pkiFolder = mkdtempSync(join(tmpdir(), 'scoreline-test-trust-'));
  const recorded = record({
    endpoint: server.endpoint,
    security: 'signAndEncrypt',
    pkiFolder,
    tags: ['State'],
  });
  const trouble = () => recorded.intake.status().trouble;
  await until('refused', () => trouble() !== undefined);
  expect(trouble()?.message).toMatch(
    /certificate that nobody has trusted yet: ([0-9A-F]{2}:){31}[0-9A-F]{2}/,
  );
  expect(recorded.changes).toEqual([]);
  expect(server.requests('CreateSessionRequest')).toBe(0);
  const rejected = readdirSync(join(pkiFolder, 'rejected'));
  expect(rejected).toHaveLength(1);
  const file = join(pkiFolder, 'rejected', rejected[0]!);
  expect(trouble()?.mend).toContain(file);
  expect(trouble()?.mend).toContain(join(pkiFolder, 'trusted', 'certs'));
  renameSync(file, join(pkiFolder, 'trusted', 'certs', basename(file)));
  await until('up', () => recorded.intake.status().up);
  expect(recorded.intake.status().fingerprint).toMatch(/^([0-9A-F]{2}:){31}/);
  expect(recorded.intake.status().security).toBe('signAndEncrypt');
  await recorded.intake.stop();
  await server.stop();
});

it('a server that does not trust us is told as such, with what to trust, and heard once a person does', {
  timeout: 240_000,
}, async () => {
  const theirs = mkdtempSync(join(tmpdir(), 'scoreline-test-theirs-'));
  const pkiFolder = mkdtempSync(join(tmpdir(), 'scoreline-test-trust-'));
  const server = await startTestServer({ tags: { State: DataType.Int32 }, pkiFolder: theirs });
  server.set('State', 6, moment());
  const { endpoint } = server;
  const recorded = record({ endpoint, security: 'signAndEncrypt', pkiFolder, tags: ['State'] });
  const { status } = recorded.intake;
  await until('it is shown', () => status().trouble?.message.includes('nobody has trusted') ?? false);
  trust(pkiFolder);
  await until('refused', () => status().trouble?.message.includes('does not trust') ?? false);
  expect(status().trouble?.why).toContain('BadSecurityChecksFailed');
  const own = join(pkiFolder, 'own', 'certs', 'scoreline.pem');
  expect(status().trouble?.mend).toContain(own);
  expect(status().trouble?.mend).toContain(new X509Certificate(readFileSync(own)).fingerprint256);
  expect(recorded.changes).toEqual([]);
  trust(theirs);
  await until('up', () => status().up);
  expect(status().trouble).toBeUndefined();
  await recorded.intake.stop();
  await server.stop();
  for (const folder of [theirs, pkiFolder]) rmSync(folder, { recursive: true, force: true });
});

/** As a person does who knows the fingerprint. */
function trust(folder: string): void {
  for (const name of readdirSync(join(folder, 'rejected'))) {
    renameSync(join(folder, 'rejected', name), join(folder, 'trusted', 'certs', name));
  }
}

it('security that the server does not offer is not replaced by weaker one', {
  timeout: 240_000,
}, async () => {
  const server = await startTestServer({ tags: { State: DataType.Int32 } });
  const recorded = record({ endpoint: server.endpoint, security: 'sign', tags: ['State'] });
  await until('trouble', () => recorded.intake.status().trouble !== undefined);
  expect(recorded.intake.status().trouble?.message).toContain('does not offer the security “sign”');
  expect(server.requests('CreateSessionRequest')).toBe(0);
  await recorded.intake.stop();
  await server.stop();
});
