/** Whether a name is in the IANA list as this machine knows it. Offsets such as +01:00 have no summer time and are none. */
export function isZone(name: string): boolean {
  if (!/^[A-Za-z][A-Za-z0-9_+-]*(\/[A-Za-z0-9_+-]+)*$/.test(name)) return false;
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** Every zone by its name. */
export function zones(): readonly string[] {
  return [...Intl.supportedValuesOf('timeZone'), 'UTC'];
}
