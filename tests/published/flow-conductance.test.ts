import { describe, expect, it } from 'vitest';
import { orificeConductanceM3PerS } from '../../simulators/physics/orifice-conductance.ts';
import { tubeConductanceM3PerS } from '../../simulators/physics/tube-conductance.ts';

/** Molecular flow: the formula at no pressure. */
const molecular = (diameterM: number, lengthM: number): number =>
  tubeConductanceM3PerS(diameterM, lengthM, 0);

describe('conductance of tubes against published figures', () => {
  it('gives the molecular conductance of a worked example', () => {
    // codingace.net, vacuum conductance: tube of 5 cm diameter and 100 cm length, air: 15.125 L/s.
    expect(molecular(0.05, 1) * 1e3).toBeCloseTo(15.125, 6);
  });

  it('gives the conductances of a course problem', () => {
    // University of Maryland, Physics 405, vacuum problem: tubes of 30 cm length and 5 cm or 1 cm
    // diameter; with 12.1 d³/l they are 50.417 and 0.40333 L/s, 25 small ones together 10.0833 L/s.
    expect(molecular(0.05, 0.3) * 1e3).toBeCloseTo(50.417, 3);
    expect(molecular(0.01, 0.3) * 1e3).toBeCloseTo(0.40333, 5);
    expect(25 * molecular(0.01, 0.3) * 1e3).toBeCloseTo(10.0833, 4);
  });

  it('comes near a molecular example reckoned from the mean speed of the molecules', () => {
    // Pfeiffer Vacuum, Vacuum Technology Know how: 0.07 m, 2.47 m, C = 0.017123 m³/s for a mean
    // speed of 471 m/s (nitrogen); air at 20 °C has 463 m/s, and 12.1 is rounded: within 2 %.
    expect(molecular(0.07, 2.47) / 0.017123).toBeCloseTo(463 / 471, 2);
  });

  it('comes near a laminar example reckoned from the viscosity', () => {
    // Pfeiffer Vacuum, Vacuum Technology Know how: 0.07 m, 2.4 m, 4285 to 4287.2 Pa, viscosity
    // 18.2 µPa·s; recomputed from Poiseuille's law C = 57.8 m³/s. 135 is rounded: within 0.5 %.
    expect(tubeConductanceM3PerS(0.07, 2.4, 4286.1) / 57.8).toBeCloseTo(1, 2);
  });

  it('follows the transitional formula, its shallow minimum included', () => {
    // Knudsen's formula for d = 1 cm, l = 100 cm, recomputed in cm, mbar and L/s (formula from memory).
    const tabulated = [
      [10, 13.59804],
      [1, 1.448122],
      [0.667, 0.99862],
      [0.133, 0.278282],
      [0.0667, 0.189437],
      [0.01, 0.118343],
      [0.001, 0.117948],
      [0, 0.121],
    ] as const;
    for (const [meanMbar, litrePerS] of tabulated) {
      const relative = (tubeConductanceM3PerS(0.01, 1, meanMbar * 100) * 1e3) / litrePerS;
      expect(relative, `${meanMbar} mbar`).toBeCloseTo(1, 5);
    }
  });
});

describe('conductance of an orifice against published figures', () => {
  it('gives the molecular conductance of an aperture', () => {
    // codingace.net: an aperture of 20 cm² lets 232 L/s of air pass in molecular flow.
    const diameterM = Math.sqrt((20e-4 * 4) / Math.PI);
    expect(orificeConductanceM3PerS(diameterM, 0) * 1e3).toBeCloseTo(232, 6);
  });
});
