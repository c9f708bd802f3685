/** Something that must hold did not. */
export class Broken extends Error {}

export function must(holds: boolean, what: string): asserts holds {
  if (!holds) throw new Broken(what);
}
