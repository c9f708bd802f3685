/**
 * The known name nearest to a mistyped one, or null where none is near: at most a third of its letters (and at
 * least one) may differ in the Levenshtein distance, or the given name begins it or is a part of it. Case is ignored.
 *
 * @example
 * ```ts
 * import { nearestName } from 'lieflat';
 * await nearestName('pike-knit', ['pique-knit', 'denim']); // => 'pique-knit'
 * await nearestName('wool', ['pique-knit', 'denim']); // => null
 * ```
 */
export async function nearestName(given: string, known: readonly string[]): Promise<string | null> {
  const { distance } = await import('fastest-levenshtein');
  const wanted = given.toLowerCase();
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const name of known) {
    const candidate = name.toLowerCase();
    const begins = wanted.length >= 2 && candidate.startsWith(wanted);
    const within = wanted.length >= 3 && candidate.includes(wanted);
    const apart = begins ? 0.5 : within ? 0.75 : distance(wanted, candidate);
    const allowed = Math.max(1, Math.floor(Math.max(wanted.length, candidate.length) / 3));
    if (apart <= allowed && apart < least) {
      best = name;
      least = apart;
    }
  }
  return best;
}
