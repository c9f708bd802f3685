import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holdOfSheetBeyond } from '../../lib/mechanics/beyond.js';
import { FieldSolver, type VaryingStiffness } from '../../lib/mechanics/field.js';
import { type Grid, newTensorField, type TensorField } from '../../lib/mechanics/grid.js';
import {
  compliance,
  lamina,
  NO_STIFFNESS,
  type PlaneStiffness,
  plus,
  rotated,
} from '../../lib/mechanics/laminate.js';

const grid: Grid = { nx: 32, ny: 32, cellMm: 1, x0: -16, y0: -16 };
const cells = grid.nx * grid.ny;
const solver = new FieldSolver(grid);
const soft = lamina({ along: 0.6, across: 0.4, shear: 0.04, poisson: 0.4 });
const stiff = lamina({ along: 8, across: 7, shear: 2.8, poisson: 0.3 });

const middle = (k: number) => -16 + k + 0.5;
const fieldOf = (f: (x: number, y: number) => number): Float64Array =>
  Float64Array.from({ length: cells }, (_, p) => f(middle(p % 32), middle(Math.floor(p / 32))));
const bump = (x0: number, y0: number, width: number) =>
  fieldOf((x, y) => Math.exp(-((x - x0) ** 2 + (y - y0) ** 2) / width ** 2));
const tensor = (xx: Float64Array, yy: Float64Array, xy: Float64Array): TensorField => ({ xx, yy, xy });
const load = tensor(
  bump(2, -3, 4),
  bump(-4, 1, 3),
  bump(0, 5, 3).map((v) => 0.3 * v),
);
const islands: VaryingStiffness = {
  base: soft,
  parts: [{ stiffness: stiff, share: bump(0, 0, 6) }],
  beyond: soft,
};

const most = (a: Float64Array) => a.reduce((max, v) => Math.max(max, Math.abs(v)), 0);
function expectSame(a: TensorField, b: TensorField, tolerance: number) {
  const scale = Math.max(most(b.xx), most(b.yy), most(b.xy));
  for (const key of ['xx', 'yy', 'xy'] as const)
    expect(most(a[key].map((v, p) => v - b[key][p]))).toBeLessThan(tolerance * scale);
}

describe('field', () => {
  it('is the 1-D closed form for a straight band that goes round: only the band shortens, by N over the uniaxial stiffness', () => {
    // A band along y of prestress N across it, on a free sheet. Equilibrium across: A11·ε11 + A12·ε22 + N is the same everywhere, the mean
    // force is zero, and ε22 is even and so zero mean force along y fixes it.
    const n = 0.2;
    const band = fieldOf((x) => (Math.abs(x) < 3 ? n : 0));
    const none = new Float64Array(cells);
    const { strain } = solver.solveUniform(stiff, solver.load(tensor(band, none, none)), null);
    const share = 6 / 32;
    // ε22 even: from mean forces zero; ε11 local: A11·ε11 = −N(x) − A12·ε22.
    const { s12 } = compliance(stiff);
    const along = -s12 * n * share;
    const p = 16 * 32;
    expect(strain.yy[p + 16]).toBeCloseTo(along, 12);
    expect(strain.xx[p + 16]).toBeCloseTo((-n - stiff.m12 * along) / stiff.m11, 10);
    expect(strain.xx[p + 2]).toBeCloseTo((-stiff.m12 * along) / stiff.m11, 10);
    expect(most(strain.xy)).toBeLessThan(1e-12);
  });

  it('is the closed form of layers in series and side by side', () => {
    // Layers along y under an even prestress, free sheet: across, force is the same in all (zero); along, strain is the same in all.
    const share = fieldOf((x) => (x > 0 ? 1 : 0));
    const n = fieldOf(() => 0.1);
    const none = new Float64Array(cells);
    const layered = { base: soft, parts: [{ stiffness: stiff, share }], beyond: null };
    const options = { tolerance: 1e-10, maxIterations: 2000 };
    const { strain } = solver.solve(layered, solver.load(tensor(n, none, none)), options);
    const hard = plus(soft, stiff);
    // Unknown ε22: mean of A12·ε11 + A22·ε22 is zero with ε11 = (−n − A12·ε22)/A11 in each.
    const meanOf = (f: (a: PlaneStiffness) => number) => (f(soft) + f(hard)) / 2;
    const along = meanOf((a) => (a.m12 * 0.1) / a.m11) / meanOf((a) => a.m22 - (a.m12 * a.m12) / a.m11);
    for (const [at, a] of [
      [4, soft],
      [24, hard],
    ] as const) {
      expect(strain.yy[16 * 32 + at]).toBeCloseTo(along, 7);
      expect(strain.xx[16 * 32 + at]).toBeCloseTo((-0.1 - a.m12 * along) / a.m11, 7);
    }
  });

  it('solves goods that are the same everywhere alike with and without iteration', () => {
    const spectrum = solver.load(load);
    const even = {
      base: NO_STIFFNESS,
      parts: [{ stiffness: stiff, share: new Float64Array(cells).fill(1) }],
      beyond: stiff,
    };
    const iterated = solver.solve(even, spectrum);
    expectSame(iterated.strain, solver.solveUniform(stiff, spectrum).strain, 1e-12);
    expect(iterated.iterations).toBe(1);
  });

  it('leaves no force that is out of balance, and the tolerance bounds the error', () => {
    const fine = solver.solve(islands, solver.load(load), { tolerance: 1e-10, maxIterations: 500 });
    const usual = solver.solve(islands, solver.load(load));
    expectSame(usual.strain, fine.strain, 1e-3);
    // Force of the solution as a load of its own moves nothing.
    const forces = newTensorField(cells);
    for (let p = 0; p < cells; p++) {
      const a = plus(soft, stiff, islands.parts[0].share[p]);
      const { xx, yy, xy } = fine.strain;
      forces.xx[p] = a.m11 * xx[p] + a.m12 * yy[p] + load.xx[p];
      forces.yy[p] = a.m12 * xx[p] + a.m22 * yy[p] + load.yy[p];
      forces.xy[p] = a.m66 * xy[p] + load.xy[p];
    }
    const left = solver.solveUniform(stiff, solver.load(forces), null);
    const { x, y } = solver.displacement(left);
    expect(most(x) + most(y)).toBeLessThan(1e-8);
  });

  it('has a displacement whose differences are its strain', () => {
    const solution = solver.solve(islands, solver.load(load));
    const { x, strain } = solver.displacement(solution);
    // Strain in the middle of a cell from its four corners.
    for (const [i, j] of [
      [10, 12],
      [16, 16],
      [20, 9],
    ]) {
      const at = (di: number, dj: number) => x[(j + dj) * 32 + i + di];
      const xx = (at(1, 0) + at(1, 1) - at(0, 0) - at(0, 1)) / 2 + strain[0];
      expect(xx).toBeCloseTo(solution.strain.xx[j * 32 + i], 9);
    }
  });

  it('adds up: the strain of two loads is the sum of their strains (property)', () => {
    const place = fc.tuple(
      fc.double({ min: -8, max: 8, noNaN: true }),
      fc.double({ min: -8, max: 8, noNaN: true }),
    );
    fc.assert(
      fc.property(place, place, fc.double({ min: -3, max: 3, noNaN: true }), (a, b, factor) => {
        const first = tensor(bump(a[0], a[1], 3), bump(b[0], b[1], 4), bump(a[1], b[0], 3));
        const both = tensor(
          first.xx.map((v, p) => v + factor * load.xx[p]),
          first.yy.map((v, p) => v + factor * load.yy[p]),
          first.xy.map((v, p) => v + factor * load.xy[p]),
        );
        const options = { tolerance: 1e-9, maxIterations: 500 };
        const [u, v, w] = [first, load, both].map(
          (n) => solver.solve(islands, solver.load(n), options).strain,
        );
        const sum = newTensorField(cells);
        for (const key of ['xx', 'yy', 'xy'] as const)
          for (let p = 0; p < cells; p++) sum[key][p] = u[key][p] + factor * v[key][p];
        expectSame(w, sum, 1e-6);
      }),
      { numRuns: 15, seed: 11 },
    );
  });

  it('turns with the sheet: everything turned by 90° gives the turned strain', () => {
    const turn = (f: Float64Array) =>
      Float64Array.from({ length: cells }, (_, p) => f[(31 - (p % 32)) * 32 + Math.floor(p / 32)]);
    const turnTensor = (t: TensorField): TensorField => ({
      xx: turn(t.yy),
      yy: turn(t.xx),
      xy: turn(t.xy).map((v) => -v),
    });
    const askew = rotated(stiff, 30);
    const share = bump(3, -2, 6);
    const options = { tolerance: 1e-10, maxIterations: 500 };
    const straight = solver.solve(
      { base: soft, parts: [{ stiffness: askew, share }], beyond: soft },
      solver.load(load),
      options,
    );
    const turned = solver.solve(
      {
        base: rotated(soft, 90),
        parts: [{ stiffness: rotated(askew, 90), share: turn(share) }],
        beyond: rotated(soft, 90),
      },
      solver.load(turnTensor(load)),
      options,
    );
    expectSame(turned.strain, turnTensor(straight.strain), 1e-8);
  });

  it('refuses to go on without end, and does not take a NaN for an answer', () => {
    expect(() => solver.solve(islands, solver.load(load), { tolerance: 1e-9, maxIterations: 2 })).toThrow(
      /not converged/,
    );
    const broken = { ...load, xx: load.xx.map((v, p) => (p === 7 ? Number.NaN : v)) };
    expect(() => solver.solve(islands, solver.load(broken))).toThrow(/not converged/);
  });

  it('is still where nothing pulls', () => {
    const { strain, iterations } = solver.solve(islands, solver.load(newTensorField(cells)));
    expect(most(strain.xx) + most(strain.yy) + most(strain.xy)).toBe(0);
    expect(iterations).toBe(0);
  });
});

describe('sheet beyond', () => {
  it('holds an even sheet as Eshelby’s circle has it: strain (1+ν)/2 of the free one', () => {
    const nu = 0.3;
    const even = lamina({ along: 1, across: 1, shear: 1 / (2 * (1 + nu)), poisson: nu });
    const { s11, s12 } = compliance(plus(even, holdOfSheetBeyond(even, grid)));
    const free = compliance(even);
    expect((s11 + s12) / (free.s11 + free.s12)).toBeCloseTo((1 + nu) / 2, 10);
    // (5+ν)/8 and (3ν−1)/8 for one direction.
    const eigen = [1 / (1 - nu * nu), nu / (1 - nu * nu)];
    expect(s11 * eigen[0] + s12 * eigen[1]).toBeCloseTo((5 + nu) / 8, 10);
    expect(s12 * eigen[0] + s11 * eigen[1]).toBeCloseTo((3 * nu - 1) / 8, 10);
  });
});
