/** How much water vapour a pump with gas ballast can draw before it condenses in the oil. */
import { describe, expect, it } from 'vitest';
import { liquidVapourPressurePa } from '../../protocol/water.ts';
import { pumpAfter, pumpAtStart } from '../../simulators/physics/pump.ts';
import { FAIR_WEATHER, type Surroundings } from '../../simulators/physics/surroundings.ts';
import { IDEAL_PUMP, PUMPING } from '../support/small-rig.ts';

const R_T = 8.314462618 * 293.15;

interface Case {
  readonly ballastShare: number;
  /** Warmer than 20 °C, K. */
  readonly warmK: number;
  readonly surroundings: Surroundings;
  /** Dry gas drawn along, Pa. */
  readonly airPa?: number;
}

/** Highest partial pressure of vapour at the inlet that leaves the oil dry, found by halving, Pa. */
function toleratedPa({ ballastShare, warmK, surroundings, airPa = 0 }: Case): number {
  const setup = { ...IDEAL_PUMP, ballastShare, runsWarmerK: warmK };
  const staysDry = (vapourPa: number) =>
    pumpAfter(setup, { ...pumpAtStart(setup), warmK }, 1, {
      controls: { ...PUMPING, ballastOpen: true },
      drawnMolPerS: {
        air: (setup.displacementM3PerS * airPa) / R_T,
        water: (setup.displacementM3PerS * vapourPa) / R_T,
        refrigerant: 0,
      },
      surroundings,
      elapsedS: 0,
    }).oilWaterMol === 0;
  let [dryPa, wetPa] = [0, 1e5];
  for (let turn = 0; turn < 50; turn += 1) {
    const middlePa = (dryPa + wetPa) / 2;
    if (staysDry(middlePa)) dryPa = middlePa;
    else wetPa = middlePa;
  }
  return dryPa;
}

describe('water vapour tolerance', () => {
  it('is that of a pump maker’s example', () => {
    // A pump maker's handbook, from memory: one tenth of ballast, 1330 mbar at the exhaust, pump at
    // 70 °C (vapour pressure 312 mbar), 13 mbar of moisture outside: 39 mbar.
    const surroundings = { ...FAIR_WEATHER, atmospherePa: 133_000, humidityPa: 1300 };
    const tolerated = toleratedPa({ ballastShare: 0.1, warmK: 50, surroundings });
    expect(Math.abs(tolerated / 3900 - 1)).toBeLessThan(0.005);
  });

  it.each([
    [0.1, 40, 101_325, 1000],
    [0.05, 55, 101_325, 2000],
    [0.12, 30, 79_495, 0],
  ])(
    'is Gaede’s (B/S) p (ps − pa)/(p − ps): ballast %f, %d K warmer, %d and %d Pa outside',
    (ballastShare, warmK, atmospherePa, humidityPa) => {
      const saturationPa = liquidVapourPressurePa(293.15 + warmK);
      const closedForm =
        (ballastShare * atmospherePa * (saturationPa - humidityPa)) / (atmospherePa - saturationPa);
      const surroundings = { ...FAIR_WEATHER, atmospherePa, humidityPa };
      expect(toleratedPa({ ballastShare, warmK, surroundings }) / closedForm).toBeCloseTo(1, 9);
    },
  );

  it('is nothing for pure vapour without ballast', () => {
    // Pfeiffer Vacuum, Vacuum Technology Know how, 2.1.7: below 100 °C at its outlet a pump cannot
    // pump pure water vapour without ballast.
    expect(toleratedPa({ ballastShare: 0, warmK: 40, surroundings: FAIR_WEATHER })).toBeLessThan(
      1e-6,
    );
  });

  it('grows by what dry gas drawn along can carry, up to saturation at the exhaust', () => {
    // Dalton: the vapour's share at the exhaust is its share of what is drawn.
    const tolerated = toleratedPa({
      ballastShare: 0,
      warmK: 40,
      surroundings: FAIR_WEATHER,
      airPa: 5000,
    });
    const share = tolerated / (tolerated + 5000);
    expect(share / (liquidVapourPressurePa(333.15) / 101_325)).toBeCloseTo(1, 9);
  });
});
