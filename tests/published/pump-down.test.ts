import { describe, expect, it } from 'vitest';
import { advance } from '../../simulators/physics/advance.ts';
import { tubeConductanceM3PerS } from '../../simulators/physics/tube-conductance.ts';
import { createRig, totalPressurePa } from '../../simulators/physics/rig-state.ts';
import type { RigSetup } from '../../simulators/physics/rig-setup.ts';
import { HOSE, leakOf, PUMPING, smallRig, STANDING } from '../support/small-rig.ts';

const LARGE = { volumeM3: 1, airPa: 100_000 };

describe('pump-down against published figures', () => {
  it('takes the time that the handbook formula t = V/S ln(p0/p1) gives', () => {
    // engineeringtoolbox.com, evacuation time: 1 m³, 0.1 m³/s, from 1000 mbar to 500, 100 and
    // 10 mbar in 6.9, 23 and 46 s; exactly 6.93147, 23.02585 and 46.05170 s.
    const rig = createRig(smallRig(LARGE, { displacementM3PerS: 0.1 }));
    const published = [
      [6.93147, 50_000],
      [23.02585, 10_000],
      [46.0517, 1000],
    ] as const;
    for (const [timeS, pressurePa] of published) {
      expect(totalPressurePa(advance(rig, timeS - 0.02, PUMPING), 0)).toBeGreaterThan(pressurePa);
      expect(totalPressurePa(advance(rig, timeS + 0.02, PUMPING), 0)).toBeLessThan(pressurePa);
    }
  });

  it('takes the volume flow that a sizing example asks for', () => {
    // vacuum-guide.com: 1000 m³ from 1000 to 200 mbar in 10 min needs 160 (exactly 160.944) m³/min.
    const setup = smallRig(
      { volumeM3: 1000, airPa: 100_000 },
      { displacementM3PerS: 160.944 / 60 },
    );
    const reached = totalPressurePa(advance(createRig(setup), 600, PUMPING), 0);
    expect(reached / 20_000).toBeCloseTo(1, 3);
  });

  it('ends above the ultimate pressure by inflow over speed', () => {
    // Leybold, calculation of pump-down time: t = V/S ln((p0 − pu − q/S)/(p1 − pu − q/S)).
    const pump = { displacementM3PerS: 0.1, ultimatePa: 50 };
    const setup = smallRig({ ...LARGE, airPa: 20_000, inflows: [leakOf(5)] }, pump);
    const bottomPa = 50 + 5 / 0.1;
    const timeS = (1 / 0.1) * Math.log((20_000 - bottomPa) / (200 - bottomPa));
    expect(totalPressurePa(advance(createRig(setup), timeS, PUMPING), 0) / 200).toBeCloseTo(1, 3);
    expect(totalPressurePa(advance(createRig(setup), 600, PUMPING), 0)).toBeCloseTo(bottomPa, 3);
  });

  it('is slowed by a tube as 1/S_eff = 1/S + 1/C says', () => {
    // Standard vacuum practice: pump speed and conductance in series. Pressures so low that the
    // conductance of the tube no longer depends on them.
    const base = smallRig({ airPa: 0.01 });
    const setup: RigSetup = {
      ...base,
      sections: [...base.sections, ...smallRig({ volumeM3: 1e-6, airPa: 0.01 }).sections],
      ducts: [{ ...HOSE, diameterM: 0.01, lengthM: 1 }],
      pump: { ...base.pump, section: 1 },
    };
    const conductance = tubeConductanceM3PerS(0.01, 1, 0);
    const effective = 1 / (1 / base.pump.displacementM3PerS + 1 / conductance);
    const timeS = 60;
    const expected = 0.01 * Math.exp((-effective * timeS) / 5e-3);
    const reached = totalPressurePa(advance(createRig(setup), timeS, PUMPING), 0);
    expect(reached / expected).toBeCloseTo(1, 2);
  });
});

describe('rise against published figures', () => {
  it('rises by a constant inflow as Q = V dp/dt', () => {
    // 40 CFR 1065.644, vacuum-decay leak test, example: 0.002 m³ from 25.3 to 50.6 kPa in 70 s at
    // 293.15 K: Q = 0.722857 Pa·m³/s (recomputed from its inputs). Below half an atmosphere.
    const setup = smallRig({ volumeM3: 0.002, airPa: 25_300, inflows: [leakOf(0.722857)] });
    const risen = totalPressurePa(advance(createRig(setup), 70, STANDING), 0);
    expect(risen / 50_600).toBeCloseTo(1, 5);
  });

  it('rises along a straight line from the first second to the last', () => {
    // 100 to 105 mTorr in a minute are 5 mTorr/min (electronicsweb, rate-of-rise test).
    const mTorrPa = 101_325 / 760 / 1000;
    const leakPaM3PerS = ((5 * mTorrPa) / 60) * 5e-3;
    const setup = smallRig({ airPa: 100 * mTorrPa, inflows: [leakOf(leakPaM3PerS)] });
    for (const minutes of [1, 2, 15, 60]) {
      const risen = totalPressurePa(advance(createRig(setup), 60 * minutes, STANDING), 0);
      expect(risen / mTorrPa, `${minutes} min`).toBeCloseTo(100 + 5 * minutes, 6);
    }
  });
});
