/**
 * OPC UA status codes, as far as the model needs them (OPC 10000-4, 7.39): the top two bits are the severity,
 * bits 7 and 10 mark an overflow of the server's queue.
 */
export const GOOD = 0x00000000;
export const UNCERTAIN_LAST_USABLE_VALUE = 0x40900000;
export const BAD = 0x80000000;
export const BAD_COMMUNICATION_ERROR = 0x80050000;
export const BAD_NO_COMMUNICATION = 0x80310000;
export const BAD_DATA_LOST = 0x809d0000;

export type Severity = 'good' | 'uncertain' | 'bad';

export function severity(code: number): Severity {
  const top = code >>> 30;
  return top === 0 ? 'good' : top === 1 ? 'uncertain' : 'bad';
}

/** True when the server says that values between the last one and this one were dropped. Both 0x480 and 0x80 occur. */
export function overflowed(code: number): boolean {
  return (code & 0x80) !== 0 && ((code & 0xc00) === 0x400 || (code & 0xc00) === 0);
}
