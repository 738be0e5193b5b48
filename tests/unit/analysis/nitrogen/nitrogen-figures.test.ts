/** The figures of a nitrogen test: how far off two readings may be by themselves, and what follows from a loss. */
import { gaugeFromUnit, type GaugePressure } from '../../../../protocol/gauge-pressure.ts';
import {
  type NitrogenGauge,
  type NitrogenReading,
  USUAL_NITROGEN_GAUGE,
} from '../../../../protocol/nitrogen-test.ts';
import { atmosphereAtHeightPa } from '../../../../protocol/standard-atmosphere.ts';
import { nitrogenSigmaPa } from '../../../../web/analysis/nitrogen/nitrogen-error.ts';
import { nitrogenPa } from '../../../../web/analysis/nitrogen/nitrogen-gas.ts';
import {
  type NitrogenCompared,
  nitrogenTest,
} from '../../../../web/analysis/nitrogen/nitrogen-test.ts';
import { once } from '../../../support/once.ts';
import { describe, expect, test } from 'vitest';

const AIR_PA = 100_000;
const bar = (value: number): GaugePressure => gaugeFromUnit(value, 'bar');
/** Without an error of its own. */
const PERFECT: NitrogenGauge = {
  ...USUAL_NITROGEN_GAUGE,
  ...{ accuracyShare: 0, accuracyOf: 'reading', stepPa: 0, thermometerK: 0, ambientPa: AIR_PA },
};

describe('the error of two readings', () => {
  const state = (bars: number, temperatureC: number | null) => {
    const { gaugePa } = bar(bars);
    return { gaugePa, absolutePa: gaugePa + AIR_PA, temperatureC };
  };
  const START = state(30, 20);
  const HOUR_S = 3600;
  const squareOf = (gauge: Partial<NitrogenGauge>, to = START, from = START, heldS = HOUR_S) =>
    nitrogenSigmaPa(from, to, heldS, { ...PERFECT, ...gauge }) ** 2;
  /** What a kelvin makes of it, Pa. */
  const perK = once(() => nitrogenPa(START.absolutePa, 293.15, 294.15) - START.absolutePa);

  test('is that of the gas beside the metal, and of the air’s pressure, where the gear has none', () => {
    expect(squareOf({})).toBeCloseTo(2 * (0.3 * perK()) ** 2 + 150 ** 2, 0);
  });

  test('grows with the root of the time, as the weather does, and not without end', () => {
    const weather = (hours: number) =>
      Math.sqrt(squareOf({}, START, START, hours * HOUR_S) - 2 * (0.3 * perK()) ** 2);
    expect(weather(4)).toBeCloseTo(300, 3);
    expect(weather(36)).toBeCloseTo(900, 3);
    expect(weather(100)).toBeCloseTo(1000, 3);
  });

  test('has a thermometer’s class twice, and five kelvin where nobody measured', () => {
    expect(squareOf({ thermometerK: 1 }) - squareOf({})).toBeCloseTo(2 * (perK() / 2) ** 2, 0);
    const unmeasured = state(30, null);
    expect(squareOf({}, unmeasured) - squareOf({})).toBeCloseTo((5 * perK()) ** 2, 0);
    const both = squareOf({ thermometerK: 1 }, unmeasured, unmeasured) - squareOf({});
    expect(both).toBeCloseTo(2 * (5 * perK()) ** 2, 0);
  });

  test('has the third of the gauge’s class that is not shared, of the reading or of the scale', () => {
    const ofReading = squareOf({ accuracyShare: 0.02 }) - squareOf({});
    expect(ofReading).toBeCloseTo(2 * ((0.01 * 30e5) / 3) ** 2, -1);
    const scale = { accuracyShare: 0.02, accuracyOf: 'full_scale', fullScale: bar(60) } as const;
    expect((squareOf(scale) - squareOf({})) / ofReading).toBeCloseTo(4, 6);
  });

  test('has a scale that is too steep or too flat, by what has been lost', () => {
    const to = state(28, 20);
    const gained = squareOf({ accuracyShare: 0.02 }, to) - squareOf({}, to);
    expect(gained).toBeCloseTo(2 * ((0.01 * 30e5) / 3) ** 2 + (0.01 * 2e5) ** 2, -1);
  });

  test('has the display’s step twice, even over its width', () => {
    expect(squareOf({ stepPa: 5000 }) - squareOf({})).toBeCloseTo(5000 ** 2 / 6, 0);
  });

  test('has more of the air’s pressure where nobody entered it, once the temperature is another', () => {
    const to = state(30.3, 23);
    const grown = (3 / 293.15) ** 2;
    const more = squareOf({ ambientPa: null }, to) - squareOf({}, to);
    expect(more).toBeCloseTo((10_000 ** 2 - 500 ** 2) * grown, 0);
    expect(squareOf({ ambientPa: null })).toBe(squareOf({}));
  });

  test('has a quarter of a change of temperature: gas lags, and part of the pipe lies elsewhere', () => {
    const to = state(30.3, 24);
    const perK24 =
      nitrogenPa(START.absolutePa, 293.15, 298.15) - nitrogenPa(START.absolutePa, 293.15, 297.15);
    const realGasPa =
      nitrogenPa(START.absolutePa, 293.15, 297.15) - (START.absolutePa * 297.15) / 293.15;
    expect(squareOf({}, to) / 1e6).toBeCloseTo(
      (perK24 ** 2 * (2 * 0.3 ** 2 + 1) +
        150 ** 2 +
        ((500 * 4) / 293.15) ** 2 +
        (0.15 * realGasPa) ** 2) /
        1e6,
      6,
    );
  });
});

const SYSTEM = { leakLimitPaPerS: 0.011, volumeM3: 0.02, altitudeM: null };
const GAUGE: NitrogenGauge = { ...PERFECT, accuracyShare: 0.002, thermometerK: 0.2 };
const reading = (
  atS: number,
  bars: number,
  more: Partial<NitrogenReading> = {},
): NitrogenReading => ({
  ...{ atMs: 1_700_000_000_000 + 1000 * atS, pressure: bar(bars), temperatureC: 20 },
  ...{ step: 1, justFilled: false, note: '' },
  ...more,
});
function compared(readings: readonly NitrogenReading[], system: Partial<typeof SYSTEM> = {}) {
  const [tested] = nitrogenTest(readings, GAUGE, { ...SYSTEM, ...system });
  if (tested?.kind !== 'compared') throw new Error('nothing is compared');
  return tested;
}
const lost = (bars: number, afterS: number) =>
  compared([reading(0, 30), reading(afterS, 30 - bars)]);
const verdictOf = ({ verdict, reservations }: NitrogenCompared) => [verdict, ...reservations];

describe('a loss', () => {
  test('is what is missing over the time, with the error on either side', () => {
    const { differencePa, lossPaPerS, leastSeenPaPerS, lossPaM3PerS } = lost(1, 7200);
    const sigmaPa = (leastSeenPaPerS * 7200) / 2.58;
    expect(differencePa.estimate).toBeCloseTo(-1e5, 3);
    expect(differencePa.high - differencePa.estimate).toBeCloseTo(1.645 * sigmaPa, 6);
    expect(differencePa.estimate - differencePa.low).toBeCloseTo(1.645 * sigmaPa, 6);
    expect(lossPaPerS.estimate).toBeCloseTo(1e5 / 7200, 6);
    expect(lossPaPerS.low).toBeCloseTo((1e5 - 1.645 * sigmaPa) / 7200, 6);
    expect(lossPaPerS.high).toBeCloseTo((1e5 + 1.645 * sigmaPa) / 7200, 6);
    expect(lossPaM3PerS?.estimate).toBeCloseTo((0.02 * 1e5) / 7200, 9);
    expect(lossPaM3PerS?.low).toBeCloseTo(0.02 * lossPaPerS.low, 12);
    expect(lossPaM3PerS?.high).toBeCloseTo(0.02 * lossPaPerS.high, 12);
  });

  test('is never below none, however much was gained', () => {
    const { lossPaPerS, differencePa } = lost(-2, 7200);
    expect(lossPaPerS).toEqual({ estimate: 0, low: 0, high: 0 });
    expect(differencePa.estimate).toBeCloseTo(2e5, 3);
  });

  test('counts from the limit into a vacuum times the pressure over the air’s', () => {
    expect(lost(0, 3600).countsFromPaPerS).toBeCloseTo(0.011 * 31, 9);
    const high = nitrogenTest(
      [reading(0, 30), reading(3600, 30)],
      { ...GAUGE, ambientPa: null },
      {
        ...SYSTEM,
        altitudeM: 2000,
      },
    );
    const airPa = atmosphereAtHeightPa(2000);
    expect(high[0]).toMatchObject({
      countsFromPaPerS: expect.closeTo((0.011 * (30e5 + airPa)) / airPa, 9),
    });
  });
});

describe('how much longer', () => {
  test('is until it goes on losing beyond the errors', () => {
    const { moreS, verdict, lossPaPerS, leastSeenPaPerS } = lost(0.05, 3600);
    expect(verdict).toBe('undecided');
    expect(moreS).toBeCloseTo(3600 * (leastSeenPaPerS / lossPaPerS.estimate - 1), 3);
  });

  test('is until no leak that counts could hide, where nothing is lost', () => {
    const { moreS, leastSeenPaPerS, countsFromPaPerS } = lost(0, 3600);
    const sigmaPa = (leastSeenPaPerS * 3600) / 2.58;
    expect(moreS).toBeCloseTo((3 * sigmaPa) / countsFromPaPerS - 3600, 3);
  });

  test('is five minutes at least', () => {
    const quick = compared([reading(0, 30), reading(890, 30)], { leakLimitPaPerS: 100 });
    expect(verdictOf(quick)).toEqual(['undecided', 'too_soon']);
    expect(quick.moreS).toBe(300);
  });
});

describe('a quarter of an hour', () => {
  const large = { leakLimitPaPerS: 100 };
  test('has to pass for a pass', () => {
    const after = (heldS: number) =>
      verdictOf(compared([reading(0, 30), reading(heldS, 30)], large));
    expect(after(899)).toEqual(['undecided', 'too_soon']);
    expect(after(900)).toEqual(['holds']);
  });

  test('has to pass after filling before the start is read', () => {
    const filled = reading(0, 30, { justFilled: true });
    const after = (startS: number) =>
      verdictOf(compared([filled, reading(startS, 30), reading(startS + 4000, 30)], large));
    expect(after(899)).toEqual(['not_settled', 'just_filled']);
    expect(after(900)).toEqual(['holds']);
  });
});

describe('what is read more than once at a moment', () => {
  test('is no time passed, and no rise', () => {
    const twice = [reading(0, 30), reading(0, 29), reading(4000, 30)];
    expect(compared(twice).heldS).toBe(4000);
    expect(compared(twice).differencePa.estimate).toBeCloseTo(0, 6);
    const [alone] = nitrogenTest([reading(0, 30), reading(0, 29)], GAUGE, SYSTEM);
    expect(alone?.kind).toBe('begun');
    const corrected = [reading(0, 30), reading(4000, 29.9), reading(4000, 30.06)];
    expect(compared(corrected).reservations).not.toContain('risen');
    const risen = [reading(0, 30), reading(4000, 29.9), reading(4001, 30.06)];
    expect(verdictOf(compared(risen))).toEqual(['undecided', 'risen']);
  });
});

describe('filled in again after a loss', () => {
  test('is the loss, and said', () => {
    const refilled = compared([reading(0, 30), reading(7200, 28), reading(14_400, 30)]);
    expect(verdictOf(refilled)).toEqual(['leaks', 'filled_again']);
    expect(refilled.heldS).toBe(7200);
    // Half of it, and below the start still.
    const half = compared([reading(0, 30), reading(7200, 28), reading(14_400, 29)]);
    expect(verdictOf(half)).toEqual(['leaks', 'filled_again']);
  });

  test('before any loss is none of that', () => {
    const later = [reading(0, 30), reading(3600, 30.9), reading(7200, 28)];
    expect(verdictOf(compared(later))).toEqual(['leaks']);
    expect(verdictOf(compared([reading(0, 30), reading(7200, 29), reading(14_400, 28)]))).toEqual([
      'leaks',
    ]);
  });
});
