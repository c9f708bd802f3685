import { type Design, Kind } from '../../lib/format/design.js';

/** A design moved by a map of the plane that takes the 0.1 mm raster to itself. */
export function moved(design: Design, map: (x: number, y: number) => [number, number]): Design {
  const x = new Float64Array(design.x.length);
  const y = new Float64Array(design.y.length);
  for (let i = 0; i < x.length; i++) {
    const [a, b] = map(design.x[i], design.y[i]);
    x[i] = Math.round(a * 10) / 10;
    y[i] = Math.round(b * 10) / 10;
  }
  return { ...design, x, y };
}

/** The needle points of a design in one thread sewn from the last to the first. */
export function reversed(design: Design): Design {
  const kept: number[] = [];
  for (let i = 0; i < design.kind.length; i++) if (design.kind[i] === Kind.stitch) kept.push(i);
  kept.reverse();
  return {
    ...design,
    x: Float64Array.from(kept, (i) => design.x[i]),
    y: Float64Array.from(kept, (i) => design.y[i]),
    kind: new Uint8Array(kept.length),
  };
}
