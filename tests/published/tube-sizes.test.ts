/** Bores of standard copper tube against published areas. */
import { describe, expect, it } from 'vitest';
import { boreM, TUBE_SIZES, volumePerMetreM3 } from '../../protocol/tube-sizes.ts';

const INCH_M = 25.4e-3;

function b280(nominal: string, temper: string | null) {
  const size = TUBE_SIZES.find(
    (one) => one.standard === 'ASTM B280' && one.name === `${nominal} in` && one.temper === temper,
  );
  if (size === undefined) throw new Error(`no ${nominal} in, ${String(temper)}`);
  return size;
}

describe('standard copper tube', () => {
  // engineeringtoolbox.com, ASTM B280 copper tube (ACR): inside diameter, inch, and cross-sectional area of the bore,
  // square inches, as printed there (two to three digits).
  it.each([
    ['1/4', 'annealed', 0.19, 0.0284],
    ['5/16', 'annealed', 0.248, 0.0483],
    ['3/8', 'annealed', 0.311, 0.076],
    ['3/8', 'drawn', 0.315, 0.078],
    ['1/2', 'annealed', 0.436, 0.149],
    ['1/2', 'drawn', 0.43, 0.145],
    ['5/8', 'annealed', 0.555, 0.242],
    ['5/8', 'drawn', 0.545, 0.233],
    ['3/4', 'annealed', 0.68, 0.363],
    ['3/4', 'drawn', 0.666, 0.348],
    ['7/8', null, 0.785, 0.484],
    ['1 1/8', null, 1.025, 0.825],
    ['1 3/8', null, 1.265, 1.26],
  ])('%s inch, %s, has the published bore', (nominal, temper, insideInch, areaSquareInch) => {
    const size = b280(nominal, temper);
    expect(boreM(size) / INCH_M).toBeCloseTo(insideInch, 6);
    expect(volumePerMetreM3(size) / INCH_M ** 2 / areaSquareInch).toBeGreaterThan(0.994);
    expect(volumePerMetreM3(size) / INCH_M ** 2 / areaSquareInch).toBeLessThan(1.006);
  });

  it('holds so much a metre: 3/8 inch 49 mL, 5/8 inch 156 mL', () => {
    // The same areas: 0.076 and 0.242 square inches of 6.4516 cm².
    expect(volumePerMetreM3(b280('3/8', 'annealed')) * 1e6).toBeCloseTo(0.076 * 645.16, 0);
    expect(volumePerMetreM3(b280('5/8', 'annealed')) * 1e6).toBeCloseTo(0.242 * 645.16, 0);
  });

  it('lists each size once, every wall thinner than a fifth of the diameter', () => {
    const keys = TUBE_SIZES.map(
      ({ standard, name, temper }) => `${standard} ${name} ${String(temper)}`,
    );
    expect(new Set(keys).size).toBe(keys.length);
    for (const { outerDiameterM, wallM } of TUBE_SIZES) {
      expect(wallM / outerDiameterM).toBeLessThan(0.2);
      expect(outerDiameterM).toBeGreaterThan(0.005);
    }
  });
});
