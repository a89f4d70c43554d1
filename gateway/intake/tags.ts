/** What names a node on a server: a namespace and an identifier as OPC UA writes it, `s=Cartoner.State`. */
export interface NodeName {
  /** Namespace URI, or its number where the line file gives a number. */
  readonly namespace: string | number;
  /** `s=…`, `i=…`, `g=…` or `b=…`. */
  readonly identifier: string;
}

/**
 * A tag of the line file is the string identifier of a node in the server's namespace, or a whole node id:
 * `ns=4;i=1021`, `nsu=urn:maker:machine;s=State`, or `i=2258` for a node of the standard itself. Namespace numbers move
 * when a server is reprogrammed, so names by URI are the ones to prefer.
 */
export function nodeNameOf(tag: string, namespace: string): NodeName {
  const whole = /^(?:ns=(\d+);|nsu=([^;]+);)?([sgb]=.+|i=\d+)$/s.exec(tag);
  if (!whole) return { namespace, identifier: `s=${tag}` };
  const [, number, uri, identifier] = whole;
  return { namespace: uri ?? Number(number ?? 0), identifier: identifier! };
}

/** Node id by the server's present list of namespaces; undefined when the namespace is not in it. */
export function nodeIdOf(name: NodeName, namespaces: readonly string[]): string | undefined {
  const place = typeof name.namespace === 'number' ? name.namespace : namespaces.indexOf(name.namespace);
  return place < 0 ? undefined : `ns=${place};${name.identifier}`;
}
