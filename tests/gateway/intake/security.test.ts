import { mkdtempSync, readdirSync, renameSync } from 'node:fs';
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
