/** Sums of what was judged, over designs, families and suites. */

export const MARKS = [
  'kind',
  'block',
  'width',
  'spacing',
  'angle',
  'underlay',
  'underRange',
  'serves',
  'exact',
  'split',
  'locks',
  'group',
  'purpose',
  'pattern',
  'passes',
] as const;
export type Mark = (typeof MARKS)[number];

/** How often one code was said, how often the truth contradicts it, and how often it was true and not said. */
export interface Said {
  said: number;
  false: number;
  /** Said, but the truth does not know this code. */
  unjudged: number;
  missed: number;
}

/** One object as said: how sure, and whether it is right. */
export interface Sure {
  confidence: number;
  right: boolean;
}

const each = (): Record<Mark, number> => Object.fromEntries(MARKS.map((m) => [m, 0])) as Record<Mark, number>;

/** Hits and tries of each mark. */
export class Tally {
  truth = 0;
  found = 0;
  matched = 0;
  /** Objects found where the papers leave open whether there is one. */
  neutral = 0;
  designs = 0;
  totals = 0;
  readonly hits = each();
  readonly tries = each();
  /** Errors of objects whose kind is right, mm. */
  readonly widthErrors: number[] = [];
  readonly spacingErrors: number[] = [];
  readonly findings = new Map<string, Said>();
  readonly sure: Sure[] = [];

  add(other: Tally): void {
    this.truth += other.truth;
    this.found += other.found;
    this.matched += other.matched;
    this.neutral += other.neutral;
    this.designs += other.designs;
    this.totals += other.totals;
    for (const m of MARKS) {
      this.hits[m] += other.hits[m];
      this.tries[m] += other.tries[m];
    }
    for (const e of other.widthErrors) this.widthErrors.push(e);
    for (const e of other.spacingErrors) this.spacingErrors.push(e);
    for (const s of other.sure) this.sure.push(s);
    for (const [code, s] of other.findings) {
      const own = this.code(code);
      own.said += s.said;
      own.false += s.false;
      own.unjudged += s.unjudged;
      own.missed += s.missed;
    }
  }

  code(code: string): Said {
    let said = this.findings.get(code);
    if (!said) {
      said = { said: 0, false: 0, unjudged: 0, missed: 0 };
      this.findings.set(code, said);
    }
    return said;
  }

  mark(mark: Mark, ok: boolean): void {
    this.tries[mark]++;
    if (ok) this.hits[mark]++;
  }

  get recall(): number {
    return this.truth ? this.matched / this.truth : 1;
  }

  get precision(): number {
    const judged = this.found - this.neutral;
    return judged ? this.matched / judged : 1;
  }

  share(mark: Mark): number {
    return this.tries[mark] ? this.hits[mark] / this.tries[mark] : 1;
  }

  /** The 95th percentile of the errors, by the nearest rank; null without any. */
  p95(of: 'widthErrors' | 'spacingErrors'): number | null {
    const sorted = [...this[of]].sort((a, b) => a - b);
    return sorted.length > 0 ? sorted[Math.ceil(0.95 * sorted.length) - 1] : null;
  }

  /**
   * Whether what is said of being sure is honest and of use; null where nothing is said. `rightWhenSure`: share of right
   * objects among those said with 0.9 and more; `wrongInTail`: share of all wrong objects that are among the tenth least sure.
   */
  get honesty(): { rightWhenSure: number; wrongInTail: number; objects: number } | null {
    if (this.sure.length === 0) return null;
    const sure = this.sure.filter((s) => s.confidence >= 0.9);
    const right = sure.filter((s) => s.right).length;
    const tail = [...this.sure]
      .sort((a, b) => a.confidence - b.confidence)
      .slice(0, Math.ceil(this.sure.length / 10));
    const wrong = this.sure.filter((s) => !s.right).length;
    const caught = tail.filter((s) => !s.right).length;
    return {
      rightWhenSure: sure.length ? right / sure.length : 1,
      wrongInTail: wrong ? caught / wrong : 1,
      objects: this.sure.length,
    };
  }
}
