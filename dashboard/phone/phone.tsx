export function Phone() {
  return null;
}
