/**
 * How fast work goes on, as its later half tells: threads that have just begun are slower, and what else a computer does comes and goes.
 */
export class Pace {
  private points: { readonly ms: number; readonly part: number }[] = [{ ms: 0, part: 0 }];

  /**
   * How long the rest takes, ms; null where nothing tells.
   *
   * @param ms since the beginning
   * @param part of the work that is done, 0 to 1; never less than before
   */
  leftAt(ms: number, part: number): number | null {
    const { points } = this;
    points.push({ ms, part });
    const later = points.findIndex((point) => point.part > part / 2);
    if (later > 1) points.splice(0, later - 1);
    const [from] = points;
    return part > from.part ? ((ms - from.ms) / (part - from.part)) * (1 - part) : null;
  }
}
