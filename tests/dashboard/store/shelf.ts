/** What a browser keeps of a page, in memory. */
export function shelf() {
  const rows = new Map<string, string>();
  return {
    getItem: (key: string) => rows.get(key) ?? null,
    setItem: (key: string, text: string) => void rows.set(key, text),
    removeItem: (key: string) => void rows.delete(key),
    rows,
  };
}
