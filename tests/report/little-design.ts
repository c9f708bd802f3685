import { type Design, Kind, type KindCode } from '../../lib/format/design.js';

/** Sews by hand what a test wants to see: positions in mm, one record after another. */
export class Needle {
  private readonly xs: number[] = [];
  private readonly ys: number[] = [];
  private readonly kinds: KindCode[] = [];
  private x = 0;
  private y = 0;

  private put(kind: KindCode, x = this.x, y = this.y): this {
    [this.x, this.y] = [x, y];
    this.xs.push(x);
    this.ys.push(y);
    this.kinds.push(kind);
    return this;
  }

  to(x: number, y: number): this {
    return this.put(Kind.stitch, x, y);
  }

  /** Cuts the thread and moves to where sewing goes on. */
  trimTo(x: number, y: number): this {
    return this.put(Kind.trim, x, y).tie(x, y);
  }

  colourTo(x: number, y: number): this {
    return this.put(Kind.colour).put(Kind.trim, x, y).tie(x, y);
  }

  /** Four tiny stitches on one place. */
  tie(x: number, y: number): this {
    for (const d of [0, 0.6, 0, 0.6]) this.to(x, y + d);
    return this;
  }

  /** Running stitches of about 2.5 mm, the last one on the point. */
  walk(x: number, y: number): this {
    const [fromX, fromY] = [this.x, this.y];
    const steps = Math.max(1, Math.round(Math.hypot(x - fromX, y - fromY) / 2.5));
    for (let i = 1; i <= steps; i++) {
      this.to(fromX + ((x - fromX) * i) / steps, fromY + ((y - fromY) * i) / steps);
    }
    return this;
  }

  /** An upright satin column on the left edge x, from y upward, over an underlay of the kind. */
  column(
    x: number,
    y: number,
    { width = 4, height = 20, spacing = 0.4, underlay = 'none' as 'none' | 'center-run' | 'zigzag' } = {},
  ): this {
    this.trimTo(x + width / 2, y);
    if (underlay === 'center-run') this.walk(x + width / 2, y + height - 1).walk(x + width / 2, y);
    if (underlay === 'zigzag') {
      const steps = Math.round(height / 2);
      for (let i = 0; i <= steps; i++) this.to(x + (i % 2 ? width - 0.5 : 0.5), y + (i * height) / steps);
      for (let i = steps; i >= 0; i--) this.to(x + (i % 2 ? width - 0.5 : 0.5), y + (i * height) / steps);
    }
    const swings = Math.round((2 * height) / spacing);
    for (let i = 0; i <= swings; i++) this.to(x + (i % 2 ? width : 0), y + (i * height) / swings);
    return this.tie(this.x, this.y - 0.3);
  }

  /** A rectangle filled with level rows of 4 mm stitches. */
  fill(x: number, y: number, { width = 20, height = 12, spacing = 0.4 } = {}): this {
    this.trimTo(x, y);
    const rows = Math.round(height / spacing);
    for (let row = 0; row <= rows; row++) {
      const [from, to] = row % 2 ? [x + width, x] : [x, x + width];
      const at = y + row * spacing;
      this.to(from, at);
      const offset = ((row % 4) + 1) * 0.8;
      for (let d = offset; d < width - 0.5; d += 4) if (d > 0.5) this.to(from + (to > from ? d : -d), at);
      this.to(to, at);
    }
    return this.tie(this.x, this.y - 0.3);
  }

  end(): Design {
    this.put(Kind.end);
    return {
      x: Float64Array.from(this.xs),
      y: Float64Array.from(this.ys),
      kind: Uint8Array.from(this.kinds),
      thread: null,
      header: [],
      diagnostics: [],
      format: 'dst',
    };
  }
}

/** A small crest: two columns (one wide over zigzag), a fill, in two colours. */
export function littleCrest(): Design {
  return new Needle()
    .column(0, 0, { width: 5.5, underlay: 'zigzag' })
    .column(9, 0, { width: 2.5, underlay: 'center-run' })
    .colourTo(-5, 25)
    .fill(-5, 25)
    .end();
}
