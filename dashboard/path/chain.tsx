/** The pocket chain: a line with a tick for each pocket and the way it runs. */
export function Chain({ from, to, y }: { readonly from: number; readonly to: number; readonly y: number }) {
  const pitch = (to - 26 - from) / 60;
  const ticks = Array.from({ length: 61 }, (_, i) => `M${(from + i * pitch).toFixed(1)} ${y - 6}v6`).join('');
  return (
    <g>
      <path d={`M${from} ${y}H${to - 12}`} stroke="var(--cut)" strokeWidth={2.5} />
      <path d={`M${to} ${y}l-14 -7v14z`} fill="var(--cut)" />
      <path d={ticks} stroke="var(--cut)" strokeWidth={1.6} />
    </g>
  );
}
