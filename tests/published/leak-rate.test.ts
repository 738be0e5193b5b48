/** Leak rates and their units against published tables and worked examples. */
import { describe, expect, test } from 'vitest';
import { REFRIGERANTS, type Refrigerant } from '../../protocol/refrigerants.ts';
import { paFromMicron } from '../../protocol/units.ts';
import {
  gPerYearPerPaM3,
  leakRateInUnits,
  leakRatePaM3PerS,
} from '../../web/analysis/flows/leak-rate.ts';
import { flowRatios } from '../../web/analysis/flows/refrigerant-loss.ts';

const exactly = (estimate: number) => ({ estimate, low: estimate, high: estimate });
/** Relative, to so many printed digits: half a unit in the last. */
const near = (value: number, printed: number, within: number) =>
  expect(Math.abs(value / printed - 1)).toBeLessThan(within);

describe('units of one Pa·m³/s', () => {
  // Conversion tables as several makers print them (liwo.com, ped-online.com, sonotecusa.com), which
  // hold for gas at 0 °C.
  const one = leakRateInUnits(exactly(1), 0);

  test('are 10 mbar·L/s', () => {
    near(one.mbarLPerS.estimate, 10, 1e-12);
  });

  test('are 7500.62 micron·L/s, 7.5 Torr·L/s', () => {
    near(one.micronLPerS.estimate / 1000, 7.5, 5e-3);
    // Recomputed: 1/(13 595.1 · 9.80665 · 1e-6 · 1e-3).
    near(one.micronLPerS.estimate, 7500.6158, 1e-8);
  });

  test('are 592 standard cm³/min, 59.2 to the mbar·L/s', () => {
    near(one.standardCm3PerMin.estimate / 10, 59.2, 1e-3);
    near(one.standardCm3PerMin.estimate, 592.154, 1e-6);
  });

  test('are 9.87 standard cm³/s and 4.40e-4 mol/s', () => {
    near(one.standardCm3PerMin.estimate / 60, 9.87, 1e-3);
    near(one.airGPerYear.estimate / 28.9644 / 31_557_600, 4.4e-4, 1e-3);
  });

  test('are less of a standard volume where the gas is warmer: 551.75 at 20 °C', () => {
    near(
      leakRateInUnits(exactly(1), 20).standardCm3PerMin.estimate,
      592.154 / (293.15 / 273.15),
      1e-6,
    );
    expect(leakRateInUnits(exactly(1), null)).toEqual(leakRateInUnits(exactly(1), 20));
  });
});

describe('worked examples', () => {
  test('0.01 mbar·L/s of air are 375 g a year', () => {
    // sonotecusa.com, FAQ on the unit mbar·L/s: 3.75e2 g/a.
    near(leakRateInUnits(exactly(1e-3), 20).airGPerYear.estimate, 375, 1e-3);
  });

  test('a bicycle tyre of 4 L that loses 1 bar in 30 days: 1.5e-4 Pa·m³/s', () => {
    // Pfeiffer Vacuum, Vacuum Technology Know how, 7.1.2.
    const perS = 1e5 / (30 * 24 * 3600);
    near(leakRatePaM3PerS(exactly(perS), 4e-3).estimate, 1.5e-4, 0.03);
    near(leakRatePaM3PerS(exactly(perS), 4e-3).estimate, 1.5432e-4, 1e-4);
  });

  test('10 g of R-134a in ten years: 7.1e-7 Pa·m³/s', () => {
    // The same, with a molar mass of 102 g/mol and 224 Pa·m³ (22.4 L at 0 °C and 1 bar), ±1 %.
    near(1 / gPerYearPerPaM3(0.102, 273.15), 7.1e-7, 0.01);
  });

  test('25.3 to 50.6 kPa in 70 s in 2 L at 293.15 K: 2.966e-4 mol/s', () => {
    // 40 CFR 1065.644, vacuum-decay leak test, example; recomputed from its inputs.
    const rate = leakRatePaM3PerS(exactly((50_600 - 25_300) / 70), 2e-3);
    near(rate.estimate, 0.722857, 1e-6);
    near(leakRateInUnits(rate, 20).airGPerYear.estimate / 28.9644 / 31_557_600, 2.9657e-4, 1e-4);
  });

  test('a rise of 5 micron a minute in 10 L lets 1.1e-4 Pa·m³/s in', () => {
    // By hand: 5 · 0.133322 Pa / 60 s · 0.01 m³ = 1.11102e-4.
    near(leakRatePaM3PerS(exactly(paFromMicron(5) / 60), 0.01).estimate, 1.11102e-4, 1e-5);
  });

  // Recomputed at 20 °C from molar masses: grams a year in 1e-6 mbar·L/s.
  test.each([
    ['R-134a', 0.1321036],
    ['R-410A', 0.0939785],
    ['R-32', 0.0673569],
    ['R-454B', 0.0810677],
    ['R-290', 0.0570938],
  ])('%s: %d g a year in a millionth of a mbar·L/s', (number, printed) => {
    near(1e-7 * gPerYearPerPaM3(refrigerant(number).kgPerMol, 293.15), printed, 2e-4);
  });
});

describe('flow of another gas through the same hole', () => {
  test('laminar, from 10 to 20 atm inside and 1 atm outside: four times as much', () => {
    // A maker's leak-test manual: (20² − 1)/(10² − 1) · 0.001 = 0.004 atm·cm³/s.
    const at = (atm: number) => flowRatios(refrigerant('R-134a'), atm * 101_325).laminar;
    near(at(20) / at(10), (20 ** 2 - 1) / (10 ** 2 - 1), 1e-12);
    near((at(20) / at(10)) * 0.001, 0.004, 0.01);
  });

  test('helium over air by the root of the masses and by the viscosities, as a table has them', () => {
    // The same manual: air over helium 1.08 (viscous) and 0.374 (molecular). Helium: 4.0026 g/mol and
    // 19.6 µPa·s at 20 °C (CRC Handbook, from memory).
    const helium: Refrigerant = {
      number: 'helium',
      kgPerMol: 4.0026e-3,
      viscosityPaS: 19.6e-6,
      vapourPressurePa: 0,
      safetyClass: 'A1',
      classEvidence: 'memory',
    };
    const { molecular, laminar } = flowRatios(helium, 2 * 101_325);
    near(1 / molecular, 0.374, 0.01);
    near(3 / laminar, 1.08, 0.01);
  });
});

function refrigerant(number: string): Refrigerant {
  const found = REFRIGERANTS.find((one) => one.number === number);
  if (!found) throw new Error(`no ${number}`);
  return found;
}
