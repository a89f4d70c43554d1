import type { Signal, Value } from '../../model/signals/signals.ts';
import { severity } from '../../model/status/status.ts';

/** Value as it came over the wire: number of its OPC UA data type, whether it is one value, and the value. */
export interface WireValue {
  readonly dataType: number;
  readonly scalar: boolean;
  readonly value: unknown;
}

/** `wrongType`: what the server sends cannot mean what the line file says the tag means. */
export interface Understood {
  readonly value: Value;
  readonly status: number;
  readonly wrongType: boolean;
}

/** OPC UA status codes of our own judgement (OPC 10000-4, 7.39). */
export const UNCERTAIN = 0x40000000;
export const BAD_TYPE_MISMATCH = 0x80740000;
export const BAD_OUT_OF_RANGE = 0x803c0000;

/** Built-in data types (OPC 10000-6, 5.1.2). */
const NULL = 0;
const BOOLEAN = 1;
const INT64 = 8;
const UINT64 = 9;
const DOUBLE = 11;
const STRING = 12;
const DATE_TIME = 13;
const LOCALIZED_TEXT = 21;
/** No longer than this is a text on the tape. */
const TEXT_MOST = 2000;

/**
 * What a value means for its signal. A value of the wrong type becomes a bad one, so that its signal is unknown: a
 * stop device that sends a number must not look released for ever. Whole numbers beyond 2⁵³ cannot be kept exactly and
 * are bad as well. Arrays and structures have no meaning of their own here: text, uncertain.
 */
export function understand(wire: WireValue | undefined, status: number, type: Signal['type']): Understood {
  if (!wire || wire.dataType === NULL || wire.value === null || wire.value === undefined) {
    return { value: null, status, wrongType: false };
  }
  const scalar = wire.scalar ? scalarOf(wire) : undefined;
  if (scalar === undefined) return type === 'text' ? plainText(wire.value, status) : mismatch(status);
  if (scalar === 'tooLarge')
    return { value: null, status: worse(status, BAD_OUT_OF_RANGE), wrongType: false };
  if (type === 'text') return { value: String(scalar).slice(0, TEXT_MOST), status, wrongType: false };
  return typeof scalar === type ? { value: scalar, status, wrongType: false } : mismatch(status);
}

/** Undefined: nothing that fits one number, one Boolean or one text. */
function scalarOf({ dataType, value }: WireValue): number | boolean | string | 'tooLarge' | undefined {
  if (dataType === BOOLEAN) return value === true;
  if (dataType === INT64 || dataType === UINT64) return wideInteger(value, dataType === INT64);
  if (dataType <= DOUBLE) return Number.isFinite(value) ? (value as number) : 'tooLarge';
  if (dataType === STRING) return String(value);
  if (dataType === DATE_TIME && value instanceof Date) return value.toISOString();
  if (dataType === LOCALIZED_TEXT) return (value as { readonly text?: string | null }).text ?? '';
  return undefined;
}

/** The library gives 64-bit numbers as two halves, the higher one first. */
function wideInteger(value: unknown, signed: boolean): number | 'tooLarge' | undefined {
  if (!Array.isArray(value) || value.length !== 2) return undefined;
  const bits = (BigInt(Number(value[0]) >>> 0) << 32n) | BigInt(Number(value[1]) >>> 0);
  const whole = Number(signed ? BigInt.asIntN(64, bits) : bits);
  return Number.isSafeInteger(whole) ? whole : 'tooLarge';
}

function plainText(value: unknown, status: number): Understood {
  const text = Buffer.isBuffer(value) ? value.toString('hex') : asJson(value);
  return { value: text.slice(0, TEXT_MOST), status: worse(status, UNCERTAIN), wrongType: true };
}

function asJson(value: unknown): string {
  if (ArrayBuffer.isView(value))
    return JSON.stringify([...(value as unknown as Iterable<unknown>)], bigAsText);
  return JSON.stringify(value, bigAsText) ?? String(value);
}

function bigAsText(_key: string, value: unknown): unknown {
  return typeof value === 'bigint' ? String(value) : value;
}

function mismatch(status: number): Understood {
  return { value: null, status: worse(status, BAD_TYPE_MISMATCH), wrongType: true };
}

/** The server's own verdict stands where it is at least as bad. */
function worse(status: number, ours: number): number {
  const rank = { good: 0, uncertain: 1, bad: 2 };
  return rank[severity(status)] >= rank[severity(ours)] ? status : ours;
}
