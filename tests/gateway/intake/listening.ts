import { DataType } from 'node-opcua';
import type { Instant } from '../../../model/units/units.ts';
import { moment, type Recorded, record, until, type Wish } from './fixture.ts';
import { startTestServer, type TestServer, type TestServerOptions } from './testServer.ts';

export const tags = {
  State: DataType.Int32,
  Count: DataType.UInt32,
  Stop: DataType.Boolean,
  Text: DataType.String,
};
const ends: (() => Promise<void>)[] = [];

/** Ends what a test began, the newest first. */
export async function endAll(): Promise<void> {
  for (const end of ends.splice(0).reverse()) await end();
}

/** Ended with the test, if it is still there. */
export function endLater(end: () => Promise<void>): void {
  ends.push(end);
}

/** A server with these tags, which a test may stop before its end. */
export async function serve(options: Partial<TestServerOptions> = {}): Promise<TestServer> {
  const server = await startTestServer({ tags, ...options });
  let stopped: Promise<void> | undefined;
  const stop = () => {
    stopped ??= server.stop();
    return stopped;
  };
  endLater(stop);
  return { ...server, stop };
}

export function listen(wish: Wish): Recorded {
  const recorded = record(wish);
  endLater(() => recorded.intake.stop());
  return recorded;
}

export function initial(server: TestServer, at: Instant = moment()): void {
  server.set('State', 6, at);
  server.set('Count', 100, at);
  server.set('Stop', false, at);
  server.set('Text', 'ready', at);
}

export async function up(recorded: Recorded): Promise<void> {
  await until('up', () => recorded.intake.status().up);
}
