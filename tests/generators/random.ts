/** A small seeded generator (mulberry32, public domain algorithm), so that every design can be made again from its seed. */
export class Random {
  private state: number;

  constructor(seed: number, salt = '') {
    let h = 2166136261 ^ seed;
    for (let i = 0; i < salt.length; i++) h = Math.imul(h ^ salt.charCodeAt(i), 16777619);
    this.state = (h ^ Math.imul(seed + 1, 0x9e3779b1)) >>> 0;
    for (let i = 0; i < 4; i++) this.next();
  }

  /** In [0, 1). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  range(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** Whole number in [low, high], both ends possible. */
  int(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  chance(p: number): boolean {
    return this.next() < p;
  }

  pick<T>(of: readonly T[]): T {
    return of[Math.floor(this.next() * of.length)];
  }

  sign(): 1 | -1 {
    return this.chance(0.5) ? 1 : -1;
  }
}
