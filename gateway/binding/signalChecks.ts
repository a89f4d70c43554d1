import { wordsIn } from '../../model/words/words.ts';
import type { Fault } from './faults.ts';
import { unknownName } from './referenceChecks.ts';
import { type BoundRole, type Owner, roleFacts, signalId } from './roles.ts';
import { fault, namesIn, type Row, rowsOf } from './rows.ts';
import { valueAt } from './shapeFaults.ts';
import type { Path, Source } from './source.ts';

const words = wordsIn('en').gateway.binding;

const ownerLists: Readonly<Record<Owner, { readonly path: Path; readonly key: string }>> = {
  station: { path: ['stations'], key: 'id' },
  position: { path: ['loading', 'positions'], key: 'id' },
  reject: { path: ['rejects'], key: 'id' },
  device: { path: ['devices'], key: 'id' },
  guard: { path: ['guards'], key: 'id' },
  adjustment: { path: ['adjustments'], key: 'number' },
  condition: { path: ['conditions'], key: 'id' },
};

/** Each signal by itself, all of them side by side, and what has to be bound at all. */
export function signalFaults(source: Source): readonly Fault[] {
  const signals = rowsOf(source, 'signals').filter(({ value }) => isRole(value.role));
  const servers = namesIn(rowsOf(source, 'servers'), 'id');
  return [
    ...signals.flatMap((row) => [
      ...ownerFaults(source, row),
      ...roleFaults(source, row),
      ...machineFaults(source, row),
      ...serverFaults(source, row, servers),
    ]),
    ...boundTwice(source, signals, servers),
    ...namespaceFaults(source, signals, servers),
    ...unbound(source, signals),
  ];
}

/** A full node id is used as it stands; anything else is an identifier in the server's namespace. */
export function isNodeId(tag: string): boolean {
  return /^(ns=\d+;|nsu=[^;]+;)?[isgb]=.+$/.test(tag);
}

function isRole(role: unknown): role is BoundRole {
  return typeof role === 'string' && Object.hasOwn(roleFacts, role);
}

function roleOf({ value }: Row): BoundRole {
  return value.role as BoundRole;
}

function ownerFaults(source: Source, row: Row): Fault[] {
  const role = roleOf(row);
  const { of, ofOptional } = roleFacts[role];
  if (of === undefined)
    return row.value.of === undefined ? [] : [fault(source, [...row.path, 'of'], words.ofUnwanted(role))];
  const { path, key } = ownerLists[of];
  const known = namesIn(rowsOf(source, ...path), key);
  if (row.value.of === undefined)
    return ofOptional ? [] : [fault(source, row.path, words.ofNeeded(role, words.nouns[of], known))];
  return unknownName(source, [...row.path, 'of'], words.nouns[of], known);
}

function roleFaults(source: Source, row: Row): Fault[] {
  const role = roleOf(row);
  const { counter, type } = roleFacts[role];
  const { width, activeWhen } = row.value;
  return [
    ...(counter && width === undefined ? [fault(source, row.path, words.widthNeeded(role))] : []),
    ...(!counter && width !== undefined
      ? [fault(source, [...row.path, 'width'], words.widthUnwanted(role))]
      : []),
    ...(type !== 'boolean' && activeWhen !== undefined
      ? [fault(source, [...row.path, 'activeWhen'], words.activeWhenUnwanted(role))]
      : []),
  ];
}

/** The machine exists, and its numbers can be understood. */
function machineFaults(source: Source, row: Row): Fault[] {
  const machines = rowsOf(source, 'machines');
  const unknown = unknownName(source, [...row.path, 'machine'], words.nouns.machine, namesIn(machines, 'id'));
  const role = roleOf(row);
  const key = role === 'state' ? 'states' : role === 'mode' ? 'modes' : undefined;
  const name = row.value.machine ?? valueAt(source.data, ['line', 'pace']);
  const machine = machines.find(({ value }) => value.id === name);
  if (key === undefined || machine === undefined || machine.value[key] !== undefined) return unknown;
  return [...unknown, fault(source, row.path, words.mapNeeded(role, String(name), key))];
}

function serverFaults(source: Source, row: Row, servers: readonly string[]): Fault[] {
  const { tag } = row.value;
  const bad = typeof tag === 'string' && /^(ns|nsu)=/.test(tag) && !isNodeId(tag);
  return [
    ...(servers.length > 1 && row.value.server === undefined
      ? [fault(source, row.path, words.serverNeeded(servers))]
      : []),
    ...unknownName(source, [...row.path, 'server'], words.nouns.server, servers),
    ...(bad ? [fault(source, [...row.path, 'tag'], words.badNode(tag))] : []),
  ];
}

/** One tag means one thing, and one thing comes from one tag. */
function boundTwice(source: Source, signals: readonly Row[], servers: readonly string[]): Fault[] {
  const pace = String(valueAt(source.data, ['line', 'pace']));
  const tags = new Map<string, Path>();
  const ids = new Map<string, Path>();
  return signals.flatMap((row) => {
    const { tag, of, machine } = row.value;
    const text = (value: unknown) => (typeof value === 'string' ? value : undefined);
    const id = signalId(roleOf(row), text(of), text(machine), pace);
    const node = `${text(row.value.server) ?? servers[0]}\n${tag}`;
    const [tagBefore, idBefore] = [typeof tag === 'string' ? tags.get(node) : undefined, ids.get(id)];
    if (!tagBefore) tags.set(node, row.path);
    if (!idBefore) ids.set(id, row.path);
    const line = (path: Path) => source.place(path).line;
    return [
      ...(tagBefore
        ? [fault(source, [...row.path, 'tag'], words.tagTwice(String(tag), line(tagBefore)))]
        : []),
      ...(idBefore ? [fault(source, row.path, words.signalTwice(id, line(idBefore)))] : []),
    ];
  });
}

function namespaceFaults(source: Source, signals: readonly Row[], servers: readonly string[]): Fault[] {
  return rowsOf(source, 'servers').flatMap(({ path, value }) => {
    const bare = signals.some(
      (row) =>
        (row.value.server ?? servers[0]) === value.id &&
        typeof row.value.tag === 'string' &&
        !isNodeId(row.value.tag),
    );
    return bare && value.namespace === undefined
      ? [fault(source, path, words.namespaceNeeded(String(value.id)))]
      : [];
  });
}

/** What a line cannot do without: good cartons, whether it runs, and a signal behind each thing that looks watched. */
function unbound(source: Source, signals: readonly Row[]): Fault[] {
  const pace = valueAt(source.data, ['line', 'pace']);
  const has = (role: BoundRole, of?: unknown) =>
    signals.some((row) => roleOf(row) === role && (of === undefined || row.value.of === of));
  const runs = signals.some(
    (row) => ['state', 'cycleCount'].includes(roleOf(row)) && (row.value.machine ?? pace) === pace,
  );
  const written = valueAt(source.data, ['signals']);
  // a signal whose role is not understood may be the very one that seems to be missing
  if (!Array.isArray(written) || written.length > signals.length) return [];
  return [
    ...(has('goodCount') ? [] : [fault(source, ['signals'], words.noGoodCount)]),
    ...(runs ? [] : [fault(source, ['signals'], words.unboundMachine(String(pace)))]),
    ...rowsOf(source, 'devices')
      .filter(({ value }) => typeof value.id === 'string' && !has('stopDevice', value.id))
      .map(({ path, value }) =>
        fault(source, path, words.deviceUnbound(words.nouns.device, String(value.id))),
      ),
    ...rowsOf(source, 'guards')
      .filter(({ value }) => typeof value.id === 'string' && !has('guard', value.id))
      .map(({ path, value }) =>
        fault(source, path, words.deviceUnbound(words.nouns.guard, String(value.id))),
      ),
  ];
}
