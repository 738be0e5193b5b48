/** Where the expected curve lies in a recording, and when the measured one is too far ahead of it. */
import { describe, expect, test } from 'vitest';
import type { Condition, Reading } from '../../../protocol/reading.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { expectedPullDown, timeToS } from '../../../web/plan/expected-pull-down.ts';
import { expectedStartS, isTooFast } from '../../../web/plan/place-expected.ts';
import { ChannelReadings } from '../../../web/store/channel-readings.ts';
import { rigWith } from '../../support/planned-rigs.ts';
import { conclusionsWith, inRise } from '../web/invented-conclusions.ts';

const curve = expectedPullDown(rigWith({ volumeM3: 0.02 }));
const expectedS = (pressurePa: number) => timeToS(curve, pressurePa) ?? Number.NaN;
/** The pull-down began at 100 s. */
const pullingDown = conclusionsWith();

/** One reading a second from 90 s on. */
function readingsOf(pressures: readonly (number | null)[], condition: Condition = 'over_range') {
  const readings = new ChannelReadings(0);
  readings.insert(
    pressures.map((pressurePa, index): Reading => ({
      index,
      channel: 0,
      boot: 1,
      sequence: index,
      elapsedS: 90 + index,
      pressurePa,
      temperatureC: null,
      condition: pressurePa === null ? condition : 'ok',
    })),
  );
  return readings;
}

describe('the expected curve begins', () => {
  test('with the pump, where the sensor was over range or had not been heard', () => {
    const overRange = readingsOf(Array.from({ length: 15 }, () => null));
    expect(expectedStartS(curve, overRange, pullingDown)).toBe(100);
    expect(expectedStartS(curve, new ChannelReadings(0), pullingDown)).toBe(100);
  });

  test('with the pump as well, where air was let in just before', () => {
    const vented = readingsOf([80, 80, 80, 80, 80, null, null, null, null, null, null]);
    expect(expectedStartS(curve, vented, pullingDown)).toBe(100);
  });

  test('so much earlier where the pull-down began deeper', () => {
    const halfWay = readingsOf(Array.from({ length: 15 }, () => 2000));
    expect(expectedStartS(curve, halfWay, pullingDown)).toBeCloseTo(100 - expectedS(2000), 9);
  });

  test('by the last reading that says something', () => {
    const fault = readingsOf([2000, 2000, 2000, null, null, null, null, null, null, null], 'fault');
    expect(expectedStartS(curve, fault, pullingDown)).toBeCloseTo(92 - expectedS(2000), 9);
    const longAgo = conclusionsWith({ pullDownS: 200 });
    expect(expectedStartS(curve, fault, longAgo)).toBe(200);
  });

  test('nowhere outside a pull-down, and nowhere below all that it reaches', () => {
    const readings = readingsOf(Array.from({ length: 15 }, () => 2000));
    expect(expectedStartS(curve, readings, inRise())).toBeNull();
    expect(expectedStartS(curve, readings, null)).toBeNull();
    const shallow = expectedPullDown(rigWith({ pumpUltimatePa: 3000 }));
    expect(expectedStartS(shallow, readings, pullingDown)).toBeNull();
  });
});

describe('too fast', () => {
  const at = (share: number, pressurePa: number) =>
    conclusionsWith({ nowS: 100 + share * expectedS(pressurePa), pressurePa });
  const tooFast = (conclusions: Parameters<typeof isTooFast>[2]) =>
    isTooFast(curve, 100, conclusions, DEFAULT_SHEET);

  test('is half the time, and not what a wrong volume explains', () => {
    expect(tooFast(at(0.5, 200))).toBe(true);
    expect(tooFast(at(0.8, 200))).toBe(false);
    expect(tooFast(at(1.5, 200))).toBe(false);
  });

  test('is not a matter of seconds, nor of a pressure that cannot be reached', () => {
    expect(tooFast(at(0.5, 60_000))).toBe(false);
    expect(tooFast(conclusionsWith({ nowS: 110, pressurePa: 0 }))).toBe(false);
    expect(tooFast(conclusionsWith({ nowS: 110, pressurePa: null }))).toBe(false);
  });

  test('stays so at depth, however long one pumps on', () => {
    const targetReachedS = 100 + 0.5 * expectedS(DEFAULT_SHEET.targetPa);
    expect(tooFast(conclusionsWith({ nowS: 5000, pressurePa: 20, targetReachedS }))).toBe(true);
  });
});
