/** What the judge and its fits make of curves that follow handbook formulas and worked examples. */
import { describe, expect, test } from 'vitest';
import type { Mark } from '../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { fallRatePerS } from '../../web/analysis/flows/fall-rate.ts';
import { judge } from '../../web/analysis/judge.ts';
import { leakRateInUnits } from '../../web/analysis/flows/leak-rate.ts';
import { historyOf, readingsOf, seeded, QUIET_SENSOR } from '../support/invented-curves.ts';

const markOf = (id: number, kind: Mark['kind'], elapsedS: number): Mark => {
  return { id, kind, elapsedS, text: '', madeBy: 'hand' };
};

describe('pump-down', () => {
  test.each([
    // engineeringtoolbox.com, evacuation time: 1 m³, 0.1 m³/s.
    ['a cubic metre at 0.1 m³/s', 1, 0.1, 100_000, 1000],
    // vacuum-guide.com: 1000 m³ from 1000 to 200 mbar in 10 min needs 160.944 m³/min.
    ['a thousand at 160.944 m³/min', 1000, 160.944 / 60, 100_000, 20_000],
  ])('%s: the fall shows the speed', (_, volumeM3, speedM3PerS, fromPa, toPa) => {
    const lengthS = (volumeM3 / speedM3PerS) * Math.log(fromPa / toPa);
    const samples = Array.from({ length: 40 }, (_sample, i) => {
      const elapsedS = (lengthS * i) / 39;
      const pressurePa = fromPa * Math.exp((-speedM3PerS / volumeM3) * elapsedS);
      return { elapsedS, pressurePa, count: 1 };
    });
    expect((fallRatePerS(samples)?.estimate ?? 0) * volumeM3).toBeCloseTo(speedM3PerS, 8);
  });

  test('towards the pump’s own floor: the time left is that of the handbook formula', () => {
    // Leybold, calculation of pump-down time: t = V/S ln((p₀ − pu)/(p₁ − pu)).
    const [volumeM3, speedM3PerS, ultimatePa] = [0.02, 1e-3, 20];
    const leftS = (fromPa: number) =>
      (volumeM3 / speedM3PerS) *
      Math.log((fromPa - ultimatePa) / (DEFAULT_SHEET.targetPa - ultimatePa));
    const curve = (elapsedS: number) =>
      ultimatePa + (2000 - ultimatePa) * Math.exp((-speedM3PerS / volumeM3) * elapsedS);
    for (const nowS of [40, 50]) {
      const readings = readingsOf(curve, QUIET_SENSOR, seeded(3), 0, nowS);
      const marks = [markOf(1, 'pump_on', 0)];
      const { forecast } = judge(historyOf(readings), marks, DEFAULT_SHEET, nowS);
      const truthS = leftS(curve(nowS));
      const { p10S = 0, p50S = 0, p90S = null } = forecast?.remaining ?? {};
      expect(Math.abs(p50S / truthS - 1), `at ${nowS} s`).toBeLessThan(0.25);
      expect(p10S).toBeLessThan(truthS);
      expect(p90S ?? Infinity).toBeGreaterThan(truthS);
    }
  });
});

describe('pressure rise', () => {
  const ISOLATED_S = 30;
  const riseOf = (startPa: number, risePaPerS: number, heldS: number, volumeM3: number) => {
    const curve = (elapsedS: number) => startPa + risePaPerS * Math.max(elapsedS - ISOLATED_S, 0);
    const nowS = ISOLATED_S + heldS;
    const readings = readingsOf(curve, QUIET_SENSOR, seeded(4), 0, nowS);
    const marks = [markOf(1, 'pump_on', 0), markOf(2, 'isolated', ISOLATED_S)];
    const sheet = { ...DEFAULT_SHEET, volumeM3 };
    const { rise } = judge(historyOf(readings), marks, sheet, nowS);
    if (!rise) throw new Error('there is a hold');
    return rise;
  };

  test('100 to 105 mTorr in a minute: 5 mTorr a minute', () => {
    // electronicsweb, rate-of-rise test.
    const mTorrPa = 101_325 / 760 / 1000;
    const { leakPaPerS } = riseOf(100 * mTorrPa, (5 * mTorrPa) / 60, 900, 0.01);
    expect(((leakPaPerS.estimate * 60) / mTorrPa / 5 - 1) ** 2).toBeLessThan(0.05 ** 2);
    expect((leakPaPerS.low * 60) / mTorrPa).toBeLessThanOrEqual(5.001);
    expect((leakPaPerS.high * 60) / mTorrPa).toBeGreaterThanOrEqual(4.999);
  });

  test('40 CFR 1065.644: 25.3 to 50.6 kPa in 70 s in 2 L are 2.9657e-4 mol/s', () => {
    // A thousandth of that, so that it is a vacuum of the trade, over 15 minutes: Q = V·dp/dt.
    const perS = (50_600 - 25_300) / 70;
    const rise = riseOf(25.3, perS / 1000, 900, 0.002);
    const rate = rise.leakRatePaM3PerS;
    if (rate === null) throw new Error('the volume is known');
    expect(Math.abs(rate.estimate / 0.722857e-3 - 1)).toBeLessThan(0.02);
    const molPerS = leakRateInUnits(rate, 20).airGPerYear.estimate / 28.9644 / 31_557_600;
    expect(Math.abs(molPerS / 2.9657e-7 - 1)).toBeLessThan(0.02);
    expect(rise.verdict).toBe('leak');
  });
});
