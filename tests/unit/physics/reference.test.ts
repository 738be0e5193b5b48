/** The model's equations once more, written down plainly and integrated by a classic method. */
import { describe, expect, it } from 'vitest';
import { waterVapourPressurePa } from '../../../protocol/water.ts';
import { advance } from '../../../simulators/physics/advance.ts';
import { ductConductanceM3PerS } from '../../../simulators/physics/duct-conductance.ts';
import { flowFactorsOf } from '../../../simulators/physics/gases.ts';
import type { RigSetup } from '../../../simulators/physics/rig-setup.ts';
import { createRig, partialPressuresPa } from '../../../simulators/physics/rig-state.ts';
import { FAIR_WEATHER } from '../../../simulators/physics/surroundings.ts';
import {
  HOSE,
  IDEAL_PUMP,
  leakOf,
  PUMPING,
  smallRig,
  smallSection,
} from '../../support/small-rig.ts';

const R = 8.314462618;
const HELD = { gas: 'water', capacityMolPerPa: 4e-6, exchangeS: 90, startPa: 900 } as const;
const LINE = { ...HOSE, diameterM: 6e-3, lengthM: 4 };
const LEAK_PA_M3_PER_S = 2e-3;

/** Everything at once that the reference knows: leak, wall, line, changing temperature, wet warming pump. */
const RIG: RigSetup = {
  ...smallRig(),
  surroundings: { ...FAIR_WEATHER, driftKPerS: 2e-3, swingK: 1.5, swingPeriodS: 400 },
  sections: [
    smallSection({
      airPa: 3000,
      waterPa: 900,
      reservoirs: [HELD],
      inflows: [leakOf(LEAK_PA_M3_PER_S)],
    }),
    smallSection({ volumeM3: 1e-3, airPa: 2500, waterPa: 500 }),
  ],
  ducts: [LINE],
  pump: {
    ...IDEAL_PUMP,
    section: 1,
    ultimatePa: 20,
    oil: { ...IDEAL_PUMP.oil, waterMolPerPa: 1e-4, waterStartPa: 40, foulPa: 7 },
    runsWarmerK: 30,
    warmingS: 150,
    coldFactor: 3,
  },
};

/** Air and water in both volumes, water on the wall, water in the oil; mol. */
type Amounts = readonly number[];

function changes(
  [air0 = 0, water0 = 0, air1 = 0, water1 = 0, wall = 0, oil = 0]: Amounts,
  t: number,
) {
  const { surroundings: weather, pump } = RIG;
  const warmerK = 2e-3 * t + 1.5 * Math.sin((2 * Math.PI * t) / 400);
  const rt = R * (293.15 + warmerK);
  const [pa0, pw0] = [(air0 * rt) / 5e-3, (water0 * rt) / 5e-3];
  const [pa1, pw1] = [(air1 * rt) / 1e-3, (water1 * rt) / 1e-3];

  const factors = flowFactorsOf({ air: air0 + air1, water: water0 + water1, refrigerant: 0 });
  const meanPa = (pa0 + pw0 + pa1 + pw1) / 2;
  const c = ductConductanceM3PerS(LINE, { coreOut: false, opening: 1 }, meanPa, factors) / rt;
  const [flowAir, flowWater] = [c * (pa0 - pa1), c * (pw0 - pw1)];

  const bound = waterVapourPressurePa(20 + warmerK) / waterVapourPressurePa(20);
  const capacity = HELD.capacityMolPerPa / bound;
  const fromWall = (capacity / HELD.exchangeS) * (wall / capacity - pw0);

  const leak = LEAK_PA_M3_PER_S / rt;
  const humid = weather.humidityPa / weather.atmospherePa;

  const cold = 1 + 2 * Math.exp(-t / 150);
  const drawnAir = (2e-3 / rt) * (pa1 - (20 * cold + 7));
  const drawnWater = (2e-3 / rt) * (pw1 - oil / 1e-4);
  const saturationPa = waterVapourPressurePa(20 + warmerK + 30 * (1 - Math.exp(-t / 150)));
  const tolerated = (Math.max(drawnAir, 0) * saturationPa) / (weather.atmospherePa - saturationPa);
  const out = Math.min(tolerated, Math.max(drawnWater, 0) + oil / pump.oil.clearingS);

  return [
    leak * (1 - humid) - flowAir,
    leak * humid + fromWall - flowWater,
    flowAir - drawnAir,
    flowWater - drawnWater,
    -fromWall,
    drawnWater - out - oil / pump.oil.dryingS,
  ];
}

/** Classic Runge–Kutta of fourth order, in steps far shorter than anything that happens here. */
function rungeKutta(start: Amounts, untilS: number, stepS: number): Amounts {
  let amounts = start;
  const moved = (slope: readonly number[], shareS: number) =>
    amounts.map((mol, index) => mol + shareS * (slope[index] ?? NaN));
  for (let step = 0; step < Math.round(untilS / stepS); step += 1) {
    const t = step * stepS;
    const k1 = changes(amounts, t);
    const k2 = changes(moved(k1, stepS / 2), t + stepS / 2);
    const k3 = changes(moved(k2, stepS / 2), t + stepS / 2);
    const k4 = changes(moved(k3, stepS), t + stepS);
    amounts = moved(
      k1.map((slope, i) => (slope + 2 * (k2[i] ?? NaN) + 2 * (k3[i] ?? NaN) + (k4[i] ?? NaN)) / 6),
      stepS,
    );
  }
  return amounts;
}

describe('against an independent integration', () => {
  const start = [
    ...[3000, 900].map((pa) => (pa * 5e-3) / (R * 293.15)),
    ...[2500, 500].map((pa) => (pa * 1e-3) / (R * 293.15)),
    900 * HELD.capacityMolPerPa,
    40 * 1e-4,
  ];

  it.each([5, 30, 120, 400])('finds the same amounts after %d s', (untilS) => {
    const state = advance(createRig(RIG), untilS, PUMPING);
    const [first, second] = state.sections;
    const found = [
      ...[first, second].flatMap((section) => [section?.gasMol.air, section?.gasMol.water]),
      first?.reservoirMol[0],
      state.pump.oilWaterMol,
    ];
    rungeKutta(start, untilS, 5e-3).forEach((mol, index) => {
      expect(Math.abs((found[index] ?? NaN) / mol - 1), `amount ${index}`).toBeLessThan(1e-3);
    });
  });

  it('is itself settled: half its step changes nothing', () => {
    const [coarse, fine] = [5e-3, 2.5e-3].map((stepS) => rungeKutta(start, 30, stepS));
    coarse?.forEach((mol, index) => {
      expect(Math.abs((fine?.[index] ?? NaN) / mol - 1)).toBeLessThan(1e-7);
    });
  });

  it('stands on the ideal gas law', () => {
    const pressures = partialPressuresPa(createRig(RIG), 0);
    expect(pressures.air).toBeCloseTo(3000, 9);
    expect(pressures.water).toBeCloseTo(900, 9);
  });
});
