/** A function of one argument that works each answer out once. */
export function memoize<K, V>(workOut: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    let value = known.get(key);
    if (value === undefined && !known.has(key)) {
      value = workOut(key);
      known.set(key, value);
    }
    return value as V;
  };
}

/** What is worked out when it is first asked for, and then kept. */
export function once<V>(workOut: () => V): () => V {
  const answer = memoize<undefined, V>(workOut);
  return () => answer(undefined);
}
