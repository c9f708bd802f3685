/**
 * A disc that would shrink by a uniform eigenstrain ε* in an endless sheet, plane stress. Mura, *Micromechanics of Defects in Solids*,
 * 1987, ch. 2 (excerpt seen), reduced to the circle and derived again independently. With e the eigenstrain: inside ε = (1+ν)e/2 and σ = −E·e/2;
 * outside u = (1+ν)e·a²/(2r), σrr = −σθθ = −(E·e/2)(a/r)²; S1111 = (5+ν)/8, S1122 = (3ν−1)/8, S1212 = (3−ν)/8.
 */
import { describe, expect, it } from 'vitest';
import { FieldSolver } from '../../lib/mechanics/field.js';
import { CellShares, type Grid, newTensorField } from '../../lib/mechanics/grid.js';
import { lamina } from '../../lib/mechanics/laminate.js';

const NU = 0.3;
const RADIUS = 10;
const SIDE = 200;
const SHEET = lamina({ along: 1, across: 1, shear: 1 / (2 * (1 + NU)), poisson: NU });

/** Prestress −A : ε* inside the disc, cells on the rim in part; `eigen` is ε11, ε22, γ12. */
function solveDisc(cells: number, eigen: readonly [number, number, number], endless = true) {
  const cellMm = SIDE / cells;
  const grid: Grid = { nx: cells, ny: cells, cellMm, x0: -SIDE / 2, y0: -SIDE / 2 };
  const solver = new FieldSolver(grid);
  const load = newTensorField(cells * cells);
  const parts = 8;
  for (let j = 0; j < cells; j++)
    for (let i = 0; i < cells; i++) {
      let inside = 0;
      for (let q = 0; q < parts * parts; q++) {
        const x = grid.x0 + (i + ((q % parts) + 0.5) / parts) * cellMm;
        const y = grid.y0 + (j + (Math.floor(q / parts) + 0.5) / parts) * cellMm;
        if (x * x + y * y < RADIUS * RADIUS) inside++;
      }
      const share = inside / parts / parts;
      load.xx[j * cells + i] = -share * (SHEET.m11 * eigen[0] + SHEET.m12 * eigen[1]);
      load.yy[j * cells + i] = -share * (SHEET.m12 * eigen[0] + SHEET.m22 * eigen[1]);
      load.xy[j * cells + i] = -share * SHEET.m66 * eigen[2];
    }
  const solution = solver.solveUniform(SHEET, solver.load(load), endless ? SHEET : null);
  const displacement = solver.displacement(solution);
  const shares = new CellShares(grid);
  const at = (x: number, y: number) => {
    shares.place(x, y);
    const { xx, yy, xy } = solution.strain;
    return { xx: shares.read(xx), yy: shares.read(yy), xy: shares.read(xy) };
  };
  const moved = (x: number, y: number) => {
    shares.place(x, y, 0);
    return shares.read(displacement.x) + displacement.strain[0] * x + (displacement.strain[2] / 2) * y;
  };
  return { at, moved };
}

const EVEN = [-0.01, -0.01, 0] as const;

describe('disc of uniform eigenstrain', () => {
  it('comes within 1 % of the closed form at the finest mesh, inside and outside, and nearer with every refinement', () => {
    const errors = [64, 128, 256, 512].map((cells) => {
      const { at, moved } = solveDisc(cells, EVEN);
      const inside = Math.abs(at(0, 0).xx / -0.0065 - 1);
      // 1.5 and 2 radii out, along an axis and a diagonal: hoop strain (1+ν)ε*a²/(2r²), radial the opposite.
      const outside = [
        [15, 0],
        [0, 20],
      ].map(([x, y]) => {
        const r2 = x * x + y * y;
        const hoop = (-0.0065 * RADIUS * RADIUS) / r2;
        const e = at(x, y);
        return Math.max(
          Math.abs((x === 0 ? e.xx : e.yy) / hoop - 1),
          Math.abs((x === 0 ? e.yy : e.xx) / -hoop - 1),
        );
      });
      const movement = Math.abs((moved(20, 0) - moved(-20, 0)) / 2 / -0.0325 - 1);
      return { inside, outside: Math.max(...outside), movement };
    });
    const [coarse, , , fine] = errors;
    expect(fine.inside).toBeLessThan(0.01);
    expect(fine.outside).toBeLessThan(0.01);
    expect(fine.movement).toBeLessThan(0.01);
    expect(fine.outside).toBeLessThan(coarse.outside / 2);
  });

  it('has the hoop compression just outside the rim that drives a pucker, −0.005 E', () => {
    // Two cells off the rim, so that cells that the rim cuts do not enter: (Eε*/2)(a/r)².
    const { at } = solveDisc(512, EVEN);
    const r = RADIUS + (2 * SIDE) / 512;
    const { xx, yy } = at(r, 0);
    const hoopStress = SHEET.m12 * xx + SHEET.m22 * yy;
    expect(Math.abs(hoopStress / (-0.005 * (RADIUS / r) ** 2) - 1)).toBeLessThan(0.02);
  });

  it('follows the Eshelby tensor of the circle for one direction and for shear', () => {
    const along = solveDisc(256, [-0.01, 0, 0]).at(0, 0);
    expect(Math.abs(along.xx / -0.006625 - 1)).toBeLessThan(0.01);
    // S2211·ε* = (3ν−1)/8·ε* = +0.000125, small against ε*: 1 % of ε*.
    expect(Math.abs(along.yy - 0.000125)).toBeLessThan(1e-4);
    const sheared = solveDisc(256, [0, 0, -0.01]).at(0, 0);
    // ε12 = (3−ν)ε*12/4, the same factor on γ.
    expect(Math.abs(sheared.xy / ((-0.01 * (3 - NU)) / 4) - 1)).toBeLessThan(0.01);
  });

  it('gives the independently computed −0.0065275 in a periodic cell without mean force', () => {
    const { at } = solveDisc(256, EVEN, false);
    expect(at(0, 0).xx).toBeCloseTo(-0.0065275, 6);
  });
});
