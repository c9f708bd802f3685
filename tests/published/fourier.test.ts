/** The transform against the definition of the discrete Fourier transform, summed term by term. Tolerance: rounding. */
import { describe, expect, it } from 'vitest';
import { RealFourier } from '../../lib/mechanics/fourier.js';

const field = (n: number) => Float64Array.from({ length: n }, (_, i) => Math.sin(i * i + 1) + ((i * 7) % 5));

describe('Fourier transform of real fields', () => {
  it.each([
    [4, 4],
    [8, 4],
    [4, 16],
    [16, 8],
  ])('is the naive sum on a %d × %d grid', (nx, ny) => {
    const fourier = new RealFourier(nx, ny);
    const f = field(nx * ny);
    const spectrum = fourier.newSpectrum();
    fourier.forward(f, spectrum);
    for (let kx = 0; kx <= nx / 2; kx++)
      for (let ky = 0; ky < ny; ky++) {
        let re = 0;
        let im = 0;
        for (let j = 0; j < ny; j++)
          for (let i = 0; i < nx; i++) {
            const phase = -2 * Math.PI * ((kx * i) / nx + (ky * j) / ny);
            re += f[j * nx + i] * Math.cos(phase);
            im += f[j * nx + i] * Math.sin(phase);
          }
        const at = 2 * (kx * ny + ky);
        expect(Math.abs(spectrum[at] - re)).toBeLessThan(1e-10);
        expect(Math.abs(spectrum[at + 1] - im)).toBeLessThan(1e-10);
      }
  });

  it('comes back, leaves the spectrum alone and counts its transforms', () => {
    const fourier = new RealFourier(32, 64);
    const f = field(32 * 64);
    const spectrum = fourier.newSpectrum();
    fourier.forward(f, spectrum);
    const before = spectrum.slice();
    const back = fourier.newField();
    fourier.inverse(spectrum, back);
    expect(spectrum).toEqual(before);
    back.forEach((value, i) => {
      expect(Math.abs(value - f[i])).toBeLessThan(1e-12);
    });
    expect(fourier.transforms).toBe(2);
  });

  it('refuses sides that are no powers of two', () => {
    expect(() => new RealFourier(12, 16)).toThrow(RangeError);
    expect(() => new RealFourier(16, 2)).toThrow(RangeError);
  });
});
