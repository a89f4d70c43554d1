export function Panel({ position }: { readonly position: string }) { return <p>{position}</p>; }
