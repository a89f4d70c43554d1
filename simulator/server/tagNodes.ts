import {
  coerceStatusCode,
  DataType,
  DataValue,
  type Namespace,
  type UAObject,
  type UAVariable,
  Variant as OpcUaVariant,
} from 'node-opcua';
import { EPOCH_2020_MS, type Instant, TICKS_PER_MS } from '../../model/units/units.ts';
import type { ToldValue } from '../faults/cells.ts';
import type { Tag } from '../lines/tags.ts';
import type { TagWrite } from '../machine/plc.ts';

const dataTypes: Readonly<Record<Tag['type'], DataType>> = {
  Boolean: DataType.Boolean,
  UInt16: DataType.UInt16,
  UInt32: DataType.UInt32,
  Int32: DataType.Int32,
  Float: DataType.Float,
  Double: DataType.Double,
  String: DataType.String,
};

/** A node for a tag, which no client may write. */
export function addTag(namespace: Namespace, machine: UAObject, tag: Tag): UAVariable {
  return namespace.addVariable({
    componentOf: machine,
    browseName: tag.tag,
    nodeId: `s=${tag.tag}`,
    dataType: dataTypes[tag.type],
    accessLevel: 'CurrentRead',
    userAccessLevel: 'CurrentRead',
    minimumSamplingInterval: 0,
  });
}

/**
 * Shows a value of a tag; null shows none, with its status. The library's public setter has no place for the part of a
 * time below a millisecond, so this calls what that setter calls itself. The library's version is pinned, and a test
 * reads the picoseconds back.
 */
export function setValue(node: UAVariable, { type }: Tag, fact: TagWrite | ToldValue): void {
  const dataType = fact.value === null ? DataType.Null : dataTypes[type];
  const [source, server] = 'source' in fact ? [fact.source, fact.server] : [fact.at, fact.at];
  const inner = node as unknown as { _internal_set_dataValue(dataValue: DataValue): void };
  inner._internal_set_dataValue(
    new DataValue({
      value: new OpcUaVariant({ dataType, value: fact.value }),
      statusCode: coerceStatusCode(fact.status ?? 0),
      sourceTimestamp: source === undefined ? noTime : dateOf(source),
      sourcePicoseconds: source === undefined ? 0 : picosecondsOf(source),
      serverTimestamp: dateOf(server),
      serverPicoseconds: picosecondsOf(server),
    }),
  );
}

/** No time, as OPC UA sends it; where none is given at all the library would send the one before again. */
const noTime = new Date(Date.UTC(1601, 0, 1));

/** Its whole milliseconds. */
export function dateOf(at: Instant): Date {
  return new Date(EPOCH_2020_MS + Math.floor(at / TICKS_PER_MS));
}

/** What a moment is after its whole milliseconds. */
function picosecondsOf(at: Instant): number {
  return (at - Math.floor(at / TICKS_PER_MS) * TICKS_PER_MS) * 100_000;
}
