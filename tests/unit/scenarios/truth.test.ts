import { describe, expect, it } from 'vitest';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { truthOf } from '../../../simulators/scenarios/truth.ts';
import { HOSE, leakOf, smallRig } from '../../support/small-rig.ts';

describe('the truth of a scenario', () => {
  it('spreads the inflow over all that stays connected after isolation, and nothing else', () => {
    const [scenario] = ALL_SCENARIOS;
    if (!scenario) throw new Error('there are no scenarios');
    const line = { ...HOSE, diameterM: 6e-3, lengthM: 5 };
    const rig = {
      ...smallRig(),
      sections: [
        ...smallRig({ volumeM3: 1e-3, inflows: [leakOf(2e-4)] }).sections,
        ...smallRig({ volumeM3: 3e-3 }).sections,
        ...smallRig({ volumeM3: 1e-4, inflows: [leakOf(1)] }).sections,
      ],
      ducts: [
        { ...line, between: [1, 2] satisfies [number, number], valve: 'isolation' },
        { ...line, between: [0, 1] satisfies [number, number], valve: null },
      ],
    };
    expect(truthOf({ ...scenario, rig, sensorSection: 1 }).leakPaPerS).toBeCloseTo(0.05, 9);
  });

  it('weighs free water, held water and vapour together', () => {
    const [scenario] = ALL_SCENARIOS;
    if (!scenario) throw new Error('there are no scenarios');
    const rig = smallRig({
      waterPa: 1000,
      reservoirs: [{ gas: 'water', capacityMolPerPa: 1e-5, exchangeS: 60, startPa: 2000 }],
      puddle: { waterKg: 3e-3, areaM2: 0.01, evaporationShare: 0.02, metalConductanceWPerK: 1 },
    });
    // 3 g; 0.02 mol · 18.0153 g/mol; 1000 Pa · 5 L/(8.31446 · 293.15) = 2.0514 mmol.
    const expectedKg = 3e-3 + (0.02 + 2.0514e-3) * 18.0153e-3;
    expect(truthOf({ ...scenario, rig }).waterKgAtStart).toBeCloseTo(expectedKg, 7);
  });
});
