/** Elements from which on an array counts as a large one: more than anything takes that does not grow with the design. */
const LARGE = 1500;

const ARRAYS = ['Float64Array', 'Float32Array', 'Int32Array', 'Uint32Array', 'Uint8Array'] as const;

/**
 * From now on the `nth` large typed array (from 1) that is made by its length cannot be: V8 says what it says when the system has no memory left. Every other
 * one is made as ever.
 *
 * @returns whether it came so far, and what puts all back
 */
export function failMemory(nth: number): { failed: () => boolean; giveBack: () => void } {
  let count = 0;
  const world = globalThis as unknown as Record<string, new (...args: unknown[]) => object>;
  const real = ARRAYS.map((name) => [name, world[name]] as const);
  for (const [name, array] of real)
    world[name] = new Proxy(array, {
      construct(target, args, asked) {
        if (typeof args[0] === 'number' && args[0] >= LARGE && ++count === nth)
          throw new RangeError('Array buffer allocation failed');
        return Reflect.construct(target, args, asked === world[name] ? target : asked);
      },
    });
  return {
    failed: () => count >= nth,
    giveBack: () => {
      for (const [name, array] of real) world[name] = array;
    },
  };
}
