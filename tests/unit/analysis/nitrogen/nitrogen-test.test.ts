/** What a nitrogen test has shown. */
import {
  absoluteFromGauge,
  gaugeFromAbsolute,
  gaugeFromUnit,
  type GaugePressure,
  inGaugeUnit,
} from '../../../../protocol/gauge-pressure.ts';
import {
  type NitrogenGauge,
  type NitrogenReading,
  USUAL_NITROGEN_GAUGE,
} from '../../../../protocol/nitrogen-test.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import {
  kelvinFromCelsius,
  STANDARD_ATMOSPHERE_PA,
  temperatureToC,
} from '../../../../protocol/units.ts';
import {
  lastNitrogenTest,
  type NitrogenCompared,
  nitrogenTest,
  type NitrogenVerdict,
} from '../../../../web/analysis/nitrogen/nitrogen-test.ts';
import { between, logBetween, normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const HOUR_MS = 3_600_000;
const FINE: NitrogenGauge = {
  ...USUAL_NITROGEN_GAUGE,
  accuracyShare: 0.001,
  stepPa: 100,
  thermometerK: 0.2,
  ambientPa: STANDARD_ATMOSPHERE_PA,
};
const SYSTEM = { leakLimitPaPerS: DEFAULT_SHEET.leakLimitPaPerS, volumeM3: null, altitudeM: null };

function reading(
  hours: number,
  pressure: GaugePressure,
  temperatureC: number | null,
  more: Partial<NitrogenReading> = {},
): NitrogenReading {
  const atMs = Math.round(1_700_000_000_000 + hours * HOUR_MS);
  return { atMs, pressure, temperatureC, step: 1, justFilled: false, note: '', ...more };
}
const psi = (value: number) => gaugeFromUnit(value, 'psi');
const fahrenheit = (value: number) => temperatureToC(value, '°F');

function compared(
  readings: readonly NitrogenReading[],
  gauge = FINE,
  system: Parameters<typeof nitrogenTest>[2] = SYSTEM,
): NitrogenCompared {
  const [tested] = nitrogenTest(readings, gauge, system);
  if (tested?.kind !== 'compared') throw new Error(`${tested?.kind}: nothing is compared`);
  return tested;
}

test('gauge and absolute pressures are taken for one another by no compiler', () => {
  const shown = psi(500);
  const absolute = absoluteFromGauge(shown, STANDARD_ATMOSPHERE_PA);
  expect(inGaugeUnit(absolute.absolutePa, 'psi')).toBeCloseTo(514.69594878, 8);
  expect(gaugeFromAbsolute(absolute, STANDARD_ATMOSPHERE_PA)).toEqual(shown);
  // @ts-expect-error an absolute pressure is none that a gauge shows
  const wrong = () => absoluteFromGauge(absolute, STANDARD_ATMOSPHERE_PA);
  expect(wrong().absolutePa).toBeNaN();
});

describe('the pressure that temperature explains', () => {
  test('is expected, and what nitrogen adds to the ideal gas is told', () => {
    const warmed = [reading(0, psi(500), fahrenheit(70)), reading(1, psi(506.32), fahrenheit(76))];
    const { expected, realGasPa, differencePa, verdict } = compared(warmed);
    expect(inGaugeUnit(expected.gaugePa, 'psi')).toBeCloseTo(506.3, 1);
    expect(inGaugeUnit(expected.gaugePa - realGasPa, 'psi')).toBeCloseTo(505.83, 2);
    expect(inGaugeUnit(differencePa.estimate, 'psi')).toBeCloseTo(0, 1);
    expect(verdict).not.toBe('leaks');
  });

  test('is no leak where it fell, and hides none where it rose', () => {
    const cooled = [reading(0, psi(500), fahrenheit(76)), reading(24, psi(493.7), fahrenheit(70))];
    expect(compared(cooled).verdict).not.toBe('leaks');
    const hidden = [reading(0, psi(500), fahrenheit(70)), reading(24, psi(500), fahrenheit(76))];
    expect(compared(hidden).verdict).toBe('leaks');
  });
});

describe('a verdict', () => {
  const still = (hours: number) => [reading(0, psi(500), 20), reading(hours, psi(500), 20)];

  test('is no pass as long as a leak that counts could hide, and says how much longer', () => {
    const short = compared(still(0.5), USUAL_NITROGEN_GAUGE);
    expect(short).toMatchObject({ verdict: 'undecided', reservations: ['too_soon'] });
    const hours = 0.5 + (short.moreS ?? 0) / 3600;
    expect(compared(still(hours * 1.1), USUAL_NITROGEN_GAUGE).verdict).toBe('holds');
    expect(compared(still(hours * 0.9), USUAL_NITROGEN_GAUGE).verdict).toBe('undecided');
  });

  test('says what leak would have been seen, as a flow where the volume is known', () => {
    const { leastSeenPaPerS, leastSeenPaM3PerS, lossPaM3PerS } = compared(still(2), FINE, {
      ...SYSTEM,
      volumeM3: 0.004,
    });
    expect(leastSeenPaM3PerS).toBeCloseTo(leastSeenPaPerS * 0.004, 12);
    expect(lossPaM3PerS?.low).toBe(0);
    expect(compared(still(2)).leastSeenPaM3PerS).toBeNull();
    // A loss of just more than that is called.
    const lostPsi = 500 - inGaugeUnit(leastSeenPaPerS * 1.1 * 7200, 'psi');
    expect(compared([reading(0, psi(500), 20), reading(2, psi(lostPsi), 20)]).verdict).toBe(
      'leaks',
    );
  });

  test('waits for the gas to settle, but not to call a gross leak', () => {
    const filled = reading(0, psi(500), 20, { justFilled: true });
    expect(nitrogenTest([filled], FINE, SYSTEM)).toEqual([
      { kind: 'settling', step: 1, untilMs: filled.atMs + 900_000 },
    ]);
    const soon = [filled, reading(0.05, psi(496), 20), reading(1, psi(490), 20)];
    expect(compared(soon)).toMatchObject({
      verdict: 'not_settled',
      reservations: ['just_filled'],
    });
    const settled = [filled, reading(0.3, psi(496), 20), reading(1, psi(490), 20)];
    expect(compared(settled).verdict).toBe('leaks');
    const gross = [filled, reading(0.05, psi(496), 20), reading(1, psi(400), 20)];
    expect(compared(gross).verdict).toBe('leaks');
  });

  test('is none where the metal changed by more than one thermometer can follow', () => {
    const sun = [reading(0, psi(500), 20), reading(3, psi(508), 28)];
    expect(compared(sun)).toMatchObject({
      verdict: 'not_settled',
      reservations: ['temperatures_apart'],
    });
    expect(compared([reading(0, psi(500), 20), reading(3, psi(470), 28)]).verdict).toBe('leaks');
  });

  test('is no pass without a temperature, nor where the pressure rose by itself', () => {
    const unmeasured = [reading(0, psi(500), 20), reading(200, psi(500), null)];
    expect(compared(unmeasured).reservations).toEqual(['temperature_unknown', 'too_soon']);
    const fed = [reading(0, psi(490), 20), reading(24, psi(500), 20)];
    expect(compared(fed)).toMatchObject({ verdict: 'undecided', reservations: ['risen'] });
  });
});

describe('a loss on the way', () => {
  const bar = (...values: readonly number[]) =>
    values.map((value, at) => reading(at * 8, gaugeFromUnit(value, 'bar'), 20));

  test.each([
    [40, 36, 40, 40],
    [40, 30, 40],
    [40, 40, 36, 40],
    [40, 36, 40, 36],
  ])('is a leak, whatever was filled in since: %d, %d, %d, … bar', (...values) => {
    for (const gauge of [FINE, USUAL_NITROGEN_GAUGE]) {
      expect(compared(bar(...values), gauge)).toMatchObject({
        verdict: 'leaks',
        reservations: ['filled_again'],
      });
    }
    // Marked as filled, what comes after is a test of its own.
    const filled = [
      ...bar(...values),
      reading(40, gaugeFromUnit(40, 'bar'), 20, { justFilled: true }),
    ];
    const anew = [41, 81].map((hours) => reading(hours, gaugeFromUnit(40, 'bar'), 20));
    expect(compared([...filled, ...anew]).verdict).toBe('holds');
  });

  test('that goes on is a leak, and filled again it was not', () => {
    expect(compared(bar(40, 38, 36))).toMatchObject({ verdict: 'leaks', reservations: [] });
  });

  test('may hide where the pressure rose on the way, so that it does not hold', () => {
    expect(compared(bar(40, 40, 40)).verdict).toBe('holds');
    expect(compared(bar(40, 44, 40))).toMatchObject({
      verdict: 'undecided',
      reservations: ['risen'],
      moreS: null,
    });
  });
});

test('about no pressure holds nothing, however long', () => {
  for (const bar of [0, 0.5, 0.99]) {
    const still = [0, 80].map((hours) => reading(hours, gaugeFromUnit(bar, 'bar'), 20));
    expect(compared(still)).toMatchObject({
      verdict: 'undecided',
      reservations: ['too_little'],
      moreS: null,
    });
  }
  const still = [0, 80].map((hours) => reading(hours, gaugeFromUnit(1, 'bar'), 20));
  expect(compared(still).verdict).toBe('holds');
});

describe('what was tested last', () => {
  const high = [0, 24].map((hours) => reading(hours, psi(500), 20, { step: 3 }));
  const low = [30, 60].map((hours) => reading(hours, psi(hours === 30 ? 150 : 100), 20));

  test('is what was read latest, whatever its number in turn', () => {
    expect(lastNitrogenTest(high, FINE, SYSTEM)?.verdict).toBe('holds');
    expect(lastNitrogenTest([...low, ...high], FINE, SYSTEM)).toMatchObject({
      step: 1,
      verdict: 'leaks',
    });
  });

  test('is nothing where it has just begun, nor where nothing was read', () => {
    const begun = reading(30, psi(150), 20, { step: 4 });
    expect(lastNitrogenTest([...high, begun], FINE, SYSTEM)).toBeNull();
    expect(lastNitrogenTest([], FINE, SYSTEM)).toBeNull();
  });
});

test('each pressure is a test of its own, and filling up begins it anew', () => {
  const readings = [
    reading(2, psi(150), 20, { step: 2 }),
    reading(0, psi(50), 20),
    reading(1, psi(49.9), 20),
    reading(1.2, psi(60), 20, { justFilled: true }),
    reading(1.5, psi(60), 20),
  ];
  expect(nitrogenTest(readings, FINE, SYSTEM)).toMatchObject([
    { kind: 'begun', step: 1, from: { pressure: psi(60) } },
    { kind: 'begun', step: 2 },
  ]);
});

/** CoolProp 8.0.0 at 258 to 323 K, cm³/mol, as a straight line: not the formula that is tested. */
const virialM3 = (kelvin: number) => (-5.9 + 0.19 * (kelvin - 293.15)) * 1e-6;

/** A test with a leak, or none: what a technician would have read. */
function drawTest(random: () => number, leaks: boolean) {
  const hours = logBetween(random, 0.25, 30);
  const startPa = logBetween(random, 5e5, 40e5);
  const gauge: NitrogenGauge = {
    ...USUAL_NITROGEN_GAUGE,
    accuracyShare: between(random, 0.001, 0.01),
    accuracyOf: random() < 0.5 ? 'full_scale' : 'reading',
    stepPa: logBetween(random, 100, 7000),
    thermometerK: between(random, 0.3, 1.5),
    ambientPa: random() < 0.5 ? null : STANDARD_ATMOSPHERE_PA,
  };
  const ambientPa = gauge.ambientPa ?? between(random, 80_000, 103_000);
  const countsFrom = (SYSTEM.leakLimitPaPerS * (startPa + ambientPa)) / ambientPa;
  const lossPaPerS = leaks ? countsFrom * logBetween(random, 1, 100) : 0;
  const [fromC, changeK] = [between(random, -5, 35), between(random, -4, 4)];
  const gasC = fromC + changeK * between(random, 0.8, 1);
  const [fromK, toK] = [kelvinFromCelsius(fromC), kelvinFromCelsius(gasC)];
  const density = (startPa + ambientPa) / (8.314462618 * fromK);
  const warmedPa =
    ((startPa + ambientPa) * toK * (1 + virialM3(toK) * density)) /
    (fromK * (1 + virialM3(fromK) * density));
  const weatherPa = 120 * normal(random) * Math.sqrt(hours);
  const leftPa = warmedPa * Math.exp((-lossPaPerS * hours * 3600) / (startPa + ambientPa));
  const endPa = Math.max(leftPa - ambientPa - weatherPa, 0);
  const ofPa = gauge.accuracyOf === 'full_scale' ? gauge.fullScale.gaugePa : startPa;
  const classPa = gauge.accuracyShare * ofPa;
  const offsetPa = between(random, -classPa, classPa);
  const gain = 1 + between(random, -0.5, 0.5) * gauge.accuracyShare;
  const shown = (pa: number): GaugePressure => {
    const errsPa = offsetPa + between(random, -classPa, classPa) / 3;
    const gaugePa = Math.round((pa * gain + errsPa) / gauge.stepPa) * gauge.stepPa;
    return { kind: 'gauge', gaugePa };
  };
  const metal = (celsius: number) => celsius + (gauge.thermometerK / 2) * normal(random);
  const readings = [
    reading(0, shown(startPa), metal(fromC)),
    reading(hours, shown(endPa), metal(fromC + changeK)),
  ];
  return compared(readings, gauge).verdict;
}

function countOf(verdicts: readonly NitrogenVerdict[], verdict: NitrogenVerdict): number {
  return verdicts.filter((one) => one === verdict).length;
}

test('of a thousand tests with a leak that counts none passes, and of as many without few are called one', () => {
  const random = seeded(1729);
  const leaking = Array.from({ length: 1000 }, () => drawTest(random, true));
  const sound = Array.from({ length: 1000 }, () => drawTest(random, false));
  expect(countOf(leaking, 'holds')).toBe(0);
  expect(countOf(sound, 'leaks')).toBeLessThanOrEqual(10);
  // And it says something at all.
  expect(countOf(leaking, 'leaks')).toBeGreaterThan(450);
  expect(countOf(sound, 'holds')).toBeGreaterThan(20);
});
