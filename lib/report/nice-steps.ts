/**
 * Round limits that split 0..max into at most `most` even steps of 1, 2 or 5 times a power of ten; the last limit
 * is at or past `max`. For max 0 or less: one step of 1.
 */
export function niceSteps(max: number, most: number): number[] {
  if (!(max > 0)) return [1];
  let power = 10 ** Math.floor(Math.log10(max / most));
  for (;;) {
    for (const lead of [1, 2, 5]) {
      const step = lead * power;
      const steps = Math.ceil(max / step - 1e-9);
      if (steps <= most) {
        return Array.from({ length: Math.max(1, steps) }, (_, i) => Number(((i + 1) * step).toPrecision(6)));
      }
    }
    power *= 10;
  }
}
