/** Waits until something is so, and looks often; the ceiling is far above what any machine needs. */
export async function until(isSo: () => boolean, ceilingMs = 300_000): Promise<void> {
  for (const end = Date.now() + ceilingMs; !isSo(); ) {
    if (Date.now() > end) throw new Error('it never became so');
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
