export function Desk() {
  return null;
}
