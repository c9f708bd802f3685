/** Plane stiffness with every entry of its own: what the worked examples of single plies leave at zero. */
import { describe, expect, it } from 'vitest';
import {
  compliance,
  forcesOf,
  lamina,
  type PlaneStiffness,
  plus,
  rotated,
  type Strain,
  stripStiffness,
} from '../../lib/mechanics/laminate.js';

/** A stable stiffness that couples stretch and shear both ways. */
const COUPLED: PlaneStiffness = { m11: 9, m12: 2.5, m16: 1.25, m22: 5, m26: -0.75, m66: 3 };
const ANGLES = [17, 40, 75, 130, -62];
const STRAINS: readonly Strain[] = [
  [0.01, 0, 0],
  [0, 0.01, 0],
  [0, 0, 0.01],
  [0.02, -0.013, 0.007],
];

/** A strain seen from axes that are turned by the angle (Mohr's circle; shear as the engineering one, twice the tensor's). */
function seenFrom([xx, yy, xy]: Strain, angleDeg: number): Strain {
  const twice = (2 * angleDeg * Math.PI) / 180;
  const mean = (xx + yy) / 2;
  const half = (xx - yy) / 2;
  const along = half * Math.cos(twice) + (xy / 2) * Math.sin(twice);
  return [mean + along, mean - along, xy * Math.cos(twice) - 2 * half * Math.sin(twice)];
}

const energy = (q: PlaneStiffness, strain: Strain): number =>
  forcesOf(q, strain).reduce((sum, force, i) => sum + force * strain[i], 0) / 2;

describe('a stiffness that couples stretch and shear', () => {
  it('turned, holds the same energy for the same strain: turning makes and takes no work', () => {
    // A ply turned one way, looked at from axes turned the same way, is as it was.
    for (const angle of ANGLES)
      for (const strain of STRAINS)
        expect(energy(rotated(COUPLED, angle), strain)).toBeCloseTo(
          energy(COUPLED, seenFrom(strain, angle)),
          12,
        );
  });

  it('turned twice is turned once by both angles, and turned back is as it was', () => {
    const same = (a: PlaneStiffness, b: PlaneStiffness): void => {
      for (const key of Object.keys(a) as (keyof PlaneStiffness)[]) expect(a[key]).toBeCloseTo(b[key], 10);
    };
    for (const angle of ANGLES) {
      same(rotated(rotated(COUPLED, angle), 23), rotated(COUPLED, angle + 23));
      same(rotated(rotated(COUPLED, angle), -angle), COUPLED);
      same(rotated(COUPLED, angle + 180), rotated(COUPLED, angle));
    }
  });

  it('answers a strain by the forces of its three rows', () => {
    // By hand: 9·1 + 2.5·2 + 1.25·4, 2.5·1 + 5·2 − 0.75·4, 1.25·1 − 0.75·2 + 3·4.
    expect(forcesOf(COUPLED, [1, 2, 4])).toEqual([19, 9.5, 11.75]);
  });

  it('has a compliance that gives the strain back for the forces', () => {
    const { s11, s12, s16, s22, s26, s66 } = compliance(COUPLED);
    for (const strain of STRAINS) {
      const [n1, n2, n12] = forcesOf(COUPLED, strain);
      expect(s11 * n1 + s12 * n2 + s16 * n12).toBeCloseTo(strain[0], 14);
      expect(s12 * n1 + s22 * n2 + s26 * n12).toBeCloseTo(strain[1], 14);
      expect(s16 * n1 + s26 * n2 + s66 * n12).toBeCloseTo(strain[2], 14);
    }
  });

  it('cut to a strip along any direction is as stiff as its own compliance there says', () => {
    for (const angle of ANGLES) {
      const turn = (angle * Math.PI) / 180;
      const strip = stripStiffness(compliance(COUPLED), Math.cos(turn) ** 2, Math.sin(turn) * Math.cos(turn));
      // Seen from axes along the strip the sheet is turned back by its angle.
      expect(strip).toBeCloseTo(1 / compliance(rotated(COUPLED, -angle)).s11, 12);
    }
  });

  it('adds up entry by entry, so often as is said', () => {
    const twice = plus(COUPLED, rotated(COUPLED, 90), 2);
    // Turned by 90° the axes change places, and what couples them with shear changes its sign.
    expect(twice.m11).toBeCloseTo(9 + 2 * 5, 12);
    expect(twice.m22).toBeCloseTo(5 + 2 * 9, 12);
    expect(twice.m12).toBeCloseTo(3 * 2.5, 12);
    expect(twice.m66).toBeCloseTo(3 * 3, 12);
    expect(twice.m16).toBeCloseTo(1.25 + 2 * 0.75, 12);
    expect(twice.m26).toBeCloseTo(-0.75 - 2 * 1.25, 12);
    expect(plus(COUPLED, COUPLED).m11).toBe(18);
  });
});

it('a ply takes no constants that would make work out of nothing', () => {
  // A pull along of 1 draws in by the ratio and, across, by its minor: their product has to stay below 1.
  expect(() => lamina({ along: 1, across: 1, shear: 1, poisson: 1 })).toThrow(RangeError);
  expect(() => lamina({ along: 1, across: 1, shear: 1, poisson: 0.99 })).not.toThrow();
  expect(() => lamina({ along: 1, across: 0, shear: 1, poisson: 0 })).toThrow(RangeError);
  expect(() => lamina({ along: Infinity, across: 1, shear: 1, poisson: 0 })).toThrow(RangeError);
});
