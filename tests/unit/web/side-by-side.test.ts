/** Two sensors side by side: what is compared, when not, and in which words. */
import { describe, expect, test } from 'vitest';
import type { SidePoint } from '../../../web/analysis/seen/side-difference.ts';
import { sideDifference } from '../../../web/analysis/seen/side-difference.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { columnsFromReadings } from '../../../protocol/reading.ts';
import { FollowedRecording } from '../../../web/store/followed-recording.ts';
import { saySideDifference } from '../../../web/words/say-side-difference.ts';
import { saySensors } from '../../../web/words/say-sensor.ts';
import { recordedReading } from '../../support/recorded-readings.ts';
import { englishIn, MICRON } from '../../support/english-speech.ts';

/** From 0 s to the end, so many a second, beginning a little late. */
function curve(
  perS: number,
  pressurePa: (elapsedS: number) => number,
  { lateS = 0, endS = 30 } = {},
): SidePoint[] {
  return Array.from({ length: Math.floor((endS - lateS) * perS) + 1 }, (_, at) => {
    const elapsedS = lateS + at / perS;
    return { elapsedS, pressurePa: pressurePa(elapsedS) };
  });
}

const falling = (elapsedS: number) => 200 - 3 * elapsedS;

describe('the difference of two sensors', () => {
  test.each([
    [10, 10],
    [8, 0.5],
    [0.5, 8],
    [0.5, 0.5],
  ])('at %d and %d Hz is that of the same moments, though both fall', (perS, otherPerS) => {
    const other = curve(otherPerS, (s) => falling(s) - 20, { lateS: 0.3 });
    const found = sideDifference(curve(perS, falling), other);
    expect(found?.differencePa).toBeCloseTo(-20, 9);
    expect(found?.scatterPa).toBeCloseTo(0, 9);
  });

  test('is of the latest ten seconds only, and a spike does not move it', () => {
    const first = curve(10, () => 100);
    const other = curve(10, (s) => (s < 19 ? 500 : s === 25 ? 9000 : 90));
    expect(sideDifference(first, other)).toMatchObject({ differencePa: -10, scatterPa: 0 });
  });

  test('comes with the scatter of what it is made of', () => {
    // Alternating ±2 Pa about a difference of −10: every deviation from the median is 2 or 0.
    const first = curve(10, () => 100);
    const other = curve(10, (s) => 90 + (Math.round(s * 10) % 2 === 0 ? 2 : -2));
    expect(sideDifference(first, other)?.scatterPa).toBeGreaterThan(1.9);
  });

  test.each([
    ['the other one has fallen silent', curve(10, falling), curve(10, falling, { endS: 24 })],
    ['the watched one has', curve(10, falling, { endS: 24 }), curve(10, falling)],
    ['the other one is over range', curve(10, falling), curve(10, () => Number.NaN)],
    ['it has just gone over range', curve(1, falling), curve(1, (s) => (s < 30 ? 9 : Number.NaN))],
    ['there is only one', curve(10, falling), []],
    ['there is too little', curve(0.2, falling), curve(0.2, falling)],
    ['its readings are too far apart', curve(10, falling), curve(0.1, falling)],
  ])('is nobody’s to say where %s', (_what, first, other) => {
    expect(sideDifference(first, other)).toBeNull();
  });
});

describe('in words', () => {
  const said = (differenceMicron: number, scatterMicron: number, gaugeErrorShare: number | null) =>
    saySideDifference(
      {
        first: 'roof',
        difference: {
          differencePa: paFromMicron(differenceMicron),
          scatterPa: paFromMicron(scatterMicron),
          firstPa: paFromMicron(500),
          otherPa: paFromMicron(500 + differenceMicron),
        },
        gaugeErrorShare,
        displayStepsPa: [],
      },
      MICRON,
    );

  test('it says which lies below which, and how sure that is', () => {
    expect(said(-34, 1.5, null)).toBe('34 micron below roof, give or take 3');
    expect(said(120, 5, null)).toBe('120 micron above roof, give or take 10');
  });

  test('what the scatter or the gauges’ error may have made is no difference', () => {
    expect(said(-4, 4.5, null)).toBe('the same as roof within 9.0 micron');
    // Ten per cent of 500 and of 460 micron.
    expect(said(-40, 1, 0.1)).toBe('the same as roof within 96 micron');
    expect(said(-200, 1, 0.1)).toBe('200 micron below roof, give or take 80');
  });

  test('two displays that are read by eye differ by half a step each for nothing', () => {
    const difference = { differencePa: 1, scatterPa: 0, firstPa: 100, otherPa: 101 };
    const sides = { first: 'a', difference, gaugeErrorShare: null };
    expect(
      saySideDifference({ ...sides, displayStepsPa: [2] }, englishIn({ pressure: 'Pa' })),
    ).toMatch(/same as a within 1\.0 Pa/u);
    expect(
      saySideDifference({ ...sides, displayStepsPa: [0.1] }, englishIn({ pressure: 'Pa' })),
    ).toMatch(/1\.00 Pa above/u);
  });

  test('sensors of one name are told apart, and a given name comes first', () => {
    const sensor = (name: string, given: string | null) => ({
      id: name,
      name,
      manufacturer: null,
      model: null,
      serial: null,
      firmware: null,
      label:
        given === null
          ? null
          : { name: given, place: 'unknown' as const, displayStepPa: null, givenAtMs: 0 },
      calibratedOn: null,
    });
    expect(
      saySensors(
        [sensor('VS', null), sensor('VS', 'roof'), sensor('VS', ''), sensor('', null)],
        MICRON,
      ),
    ).toEqual(['VS (1)', 'roof', 'VS (2)', 'Sensor']);
  });
});

describe('a recording with two sensors', () => {
  const followed = () => {
    const shown = new FollowedRecording(1);
    const readings = Array.from({ length: 40 }, (_, s) => [
      recordedReading(s, { index: 2 * s + 1, pressurePa: 100 }),
      recordedReading(s, { index: 2 * s + 2, pressurePa: 92, channel: 1 }),
    ]).flat();
    shown.insert(columnsFromReadings(readings));
    return shown;
  };

  test('compares the one that is not watched with the one that is', () => {
    const shown = followed();
    expect(shown.differenceTo(1)?.differencePa).toBeCloseTo(-8);
    shown.watch(1);
    expect(shown.differenceTo(0)?.differencePa).toBeCloseTo(8);
  });

  test('does not compare with a sensor that is warming up', () => {
    const shown = followed();
    const late = recordedReading(40, { index: 81, channel: 1, condition: 'warming_up' });
    shown.insert(columnsFromReadings([late]));
    expect(shown.differenceTo(1)).toBeNull();
  });

  test('draws the other curve from its first reading on, with its gap, late ones among them', () => {
    const shown = followed();
    shown.insert(columnsFromReadings([recordedReading(60, { index: 90, channel: 1 })]));
    const { elapsedS, pressurePa } = shown.curveOf(1).drawn({ fromS: 0, toS: 100 });
    expect(pressurePa.indexOf(null)).toBe(40);
    expect([elapsedS.at(-1), pressurePa.at(-1)]).toEqual([60, 100]);
    expect(pressurePa).toHaveLength(42);
  });
});
