import type { Message, RawValue } from '../../../gateway/intake/connection.ts';
import type { ClockSetting } from '../../../gateway/intake/lineTime.ts';
import type { Change, Role, Signal } from '../../../model/signals/signals.ts';
import { instantFromMs } from '../../../model/units/units.ts';
import { FakeLink } from '../../gateway/intake/fakeLink.ts';
import { type Capture, type Publish, stampOf, type Told } from './capture.ts';

export interface Replayed {
  readonly signals: readonly Signal[];
  readonly link: number;
  readonly changes: readonly Change[];
  readonly said: readonly string[];
  /** Of one tag, in the order in which they stand on the tape. */
  of(tag: string): readonly Change[];
}

/** Boolean, String (OPC 10000-6, 5.1.2). */
const BOOLEAN = 1;
const STRING = 12;
/** The client had asked for no more values in one message. */
const MESSAGE_MOST = 1000;

/**
 * Takes a recording through the intake as a connection would: messages and cuts as they were recorded, and each reading
 * of every tag from what the server's program had set by then. `readMs`: what comes within so long comes while it reads.
 */
export async function replay(capture: Capture, clock: ClockSetting, readMs: number): Promise<Replayed> {
  const signals = capture.tags.map((tag, index) => signalOf(capture, tag, index));
  const link = signals.length;
  const queue = [...capture.heard];
  const opened = queue.findIndex((one) => one.kind === 'event' && one.name === 'items');
  const early = queue.splice(0, opened + 1);
  const fake: FakeLink = new FakeLink({
    signals,
    linkSignal: link,
    clock,
    began: early.at(-1)!.received,
    reading: () => signals.map(({ id, index }) => readingOf(capture, id, index, fake.now)),
    whileRead: () => {
      const until = fake.now + readMs;
      const place = queue.findIndex((one) => one.kind === 'event' || one.received > until);
      return queue.splice(0, Math.max(0, place)).map((one) => messageOf(capture, one as Publish, fake.life));
    },
  });
  await fake.open();
  for (const one of early) {
    if (one.kind === 'publish') await fake.tell(messageOf(capture, one, fake.life));
  }
  let newest = 0;
  for (let one = queue.shift(); one; one = queue.shift()) {
    fake.now = one.received;
    if (one.kind === 'publish') {
      newest = one.number;
      await fake.tell(messageOf(capture, one, fake.life));
    } else if (/connection_lost|start_reconnection/.test(one.name)) {
      await fake.tell({ kind: 'lost' });
    } else if (/connection_reestablished/.test(one.name)) {
      // a subscription made anew numbers its messages anew
      const next = queue.find((later) => later.kind === 'publish');
      if (next && next.number < newest) fake.life += 1;
      await fake.tell({ kind: 'restored' });
    }
  }
  const { changes, said } = fake;
  return {
    signals,
    link,
    changes,
    said,
    of: (tag) => changes.filter(({ signal }) => signals[signal]?.id === tag),
  };
}

function signalOf(capture: Capture, tag: string, index: number): Signal {
  const dataType = capture.types.get(tag);
  const type = dataType === BOOLEAN ? 'boolean' : dataType === STRING ? 'text' : 'number';
  const role: Role = tag.endsWith('Speed') ? 'speedActual' : 'goodCount';
  return { index, id: tag, role, machine: 'cartoner', server: 'plc', type };
}

function messageOf({ tags }: Capture, { number, received, told }: Publish, life: number): Message {
  return {
    kind: 'message',
    life,
    number,
    keepAlive: told.length === 0,
    more: told.length === MESSAGE_MOST,
    received,
    size: told.length,
    values: () => told.map((value) => rawOf(value, tags.indexOf(value.tag))),
  };
}

function rawOf({ value, dataType, status, source, serverMs }: Told, item: number): RawValue {
  const { ms, ticks } = stampOf(source);
  const wire = value === null ? undefined : { dataType, scalar: true, value };
  return { item, status, wire, sourceMs: ms, sourceTicks: ticks, serverMs, serverTicks: 0 };
}

function readingOf({ truth, types }: Capture, tag: string, item: number, now: number): RawValue {
  const at = instantFromMs(now);
  const set = truth.get(tag)!.findLast((one) => one.at <= at)!;
  const { ms, ticks } = stampOf(set.at);
  const wire = { dataType: types.get(tag)!, scalar: true, value: set.value };
  return {
    item,
    status: set.status,
    wire,
    sourceMs: ms,
    sourceTicks: ticks,
    serverMs: ms,
    serverTicks: ticks,
  };
}
