/** What a rig makes of its pump, and how long it should take, against published figures. */
import { describe, expect, it } from 'vitest';
import { effectiveSpeed } from '../../web/plan/effective-speed.ts';
import { expectedPullDown, timeToS } from '../../web/plan/expected-pull-down.ts';
import { rigWith } from '../support/planned-rigs.ts';

/** So low that the flow is molecular and the conductance no longer depends on the pressure. */
const MOLECULAR_PA = 1e-6;

describe('effective speed', () => {
  it('comes near a worked example of pump and tube in series', () => {
    // Pfeiffer Vacuum, Vacuum Technology Know how: tube of 0.07 m and 2.47 m, pump of
    // 2.9722e-2 m³/s, together 1.0864e-2 m³/s for nitrogen; our 121 d³/l is for air, and 2 % smaller.
    const rig = rigWith({
      pumpDisplacementM3PerS: 2.9722e-2,
      hoseBoreM: 0.07,
      hoseLengthM: 2.47,
    });
    const speed = effectiveSpeed(rig, MOLECULAR_PA)?.speedM3PerS ?? 0;
    expect(Math.abs(speed / 1.0864e-2 - 1)).toBeLessThan(0.015);
  });

  it('adds up the conductances of tubes side by side', () => {
    // University of Maryland, Physics 405, vacuum problem: 25 tubes of 1 cm by 30 cm before a pump
    // of 10 L/s; with 12.1 d³/l they leave 5.02075 L/s of it.
    const rig = rigWith({
      pumpDisplacementM3PerS: 0.01,
      hoseBoreM: 0.01,
      hoseLengthM: 0.3,
      hoseCount: 25,
    });
    expect((effectiveSpeed(rig, MOLECULAR_PA)?.speedM3PerS ?? 0) * 1e3).toBeCloseTo(5.02075, 3);
  });
});

describe('expected pull-down', () => {
  /** So wide and short that it doesn't count. */
  const noHose = { hoseBoreM: 0.1, hoseLengthM: 0.05 };

  it('takes the time that the handbook formula t = V/S ln(p0/p1) gives', () => {
    // engineeringtoolbox.com, evacuation time: 1 m³, 0.1 m³/s, from 1000 mbar to 500, 100 and
    // 10 mbar in 6.9, 23 and 46 s; exactly 6.93147, 23.02585 and 46.05170 s. Within 0.5 %.
    const curve = expectedPullDown(
      rigWith({ ...noHose, volumeM3: 1, pumpDisplacementM3PerS: 0.1 }),
    );
    const startS = timeToS(curve, 100_000) ?? Number.NaN;
    const published = [
      [6.93147, 50_000],
      [23.02585, 10_000],
      [46.0517, 1000],
    ] as const;
    for (const [timeS, pressurePa] of published) {
      const expectedS = (timeToS(curve, pressurePa) ?? Number.NaN) - startS;
      expect(Math.abs(expectedS / timeS - 1), `${pressurePa} Pa`).toBeLessThan(0.005);
    }
  });

  it('slows down towards the pump’s ultimate pressure', () => {
    // Leybold, calculation of pump-down time: t = V/S ln((p0 − pu)/(p1 − pu)). Within 0.5 %.
    const rig = rigWith({ ...noHose, volumeM3: 1, pumpUltimatePa: 20 });
    const curve = expectedPullDown(rig);
    const timeS =
      (rig.volumeM3 / rig.pumpDisplacementM3PerS) * Math.log((101_325 - 20) / (30 - 20));
    expect(Math.abs((timeToS(curve, 30) ?? Number.NaN) / timeS - 1)).toBeLessThan(0.005);
  });
});
