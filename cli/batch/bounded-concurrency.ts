/**
 * Results of work on what a source brings, with bounded concurrency: no more than so many begun and not yet taken, so that memory stays
 * bounded however slow the taker is. As they are finished, or in the order of the source: then a slow one holds up those after it.
 *
 * @param work must not reject
 */
export async function* withBoundedConcurrency<T, R>(
  source: AsyncIterable<T>,
  work: (item: T) => Promise<R>,
  { concurrency, ordered }: { concurrency: number; ordered: boolean },
): AsyncGenerator<R> {
  const items = source[Symbol.asyncIterator]();
  const begun = new Set<Promise<() => R>>();
  let coming: Promise<() => null> | null = null;
  let ended = false;
  const begin = (item: T): void => {
    const one: Promise<() => R> = work(item).then((result) => () => {
      begun.delete(one);
      return result;
    });
    begun.add(one);
  };
  const fetch = async (): Promise<() => null> => {
    const { done, value } = await items.next();
    return () => {
      coming = null;
      if (done) ended = true;
      else begin(value);
      return null;
    };
  };
  try {
    for (;;) {
      if (!ended && begun.size < concurrency) coming ??= fetch();
      const [oldest] = begun;
      const awaited = [...(coming ? [coming] : []), ...(ordered && oldest ? [oldest] : begun)];
      if (awaited.length === 0) return;
      const result = (await Promise.race<() => R | null>(awaited))();
      if (result !== null) yield result;
    }
  } finally {
    await items.return?.();
  }
}
