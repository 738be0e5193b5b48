/** The verdict on a pump that is alone with the sensor. */
import { describe, expect, test } from 'vitest';
import { paFromMicron } from '../../../protocol/units.ts';
import { checkPump, type PumpCheckFacts } from '../../../web/plan/pump-check.ts';

/** Switched on at 100 s; a reading each five seconds. */
function factsWith(
  micronAt: (sinceS: number) => number,
  ranS: number,
  change: Partial<PumpCheckFacts> = {},
): PumpCheckFacts {
  const readings = Array.from({ length: Math.floor(ranS / 5) + 1 }, (_, at) => ({
    elapsedS: 100 + 5 * at,
    pressurePa: paFromMicron(micronAt(5 * at)),
  }));
  return { readings, pumpOnS: 100, nowS: 100 + ranS, seesPump: true, ultimatePa: null, ...change };
}

const verdictOf = (...facts: Parameters<typeof factsWith>) =>
  checkPump(factsWith(...facts)).verdict;
const falling =
  (floor: number, tauS = 20) =>
  (s: number) =>
    floor + 100_000 * Math.exp(-s / tauS);

describe('a pump alone with the sensor', () => {
  test('is good below what is usual, and below twice its own figure', () => {
    expect(verdictOf(falling(60), 300)).toBe('good');
    expect(verdictOf(falling(60), 300, { ultimatePa: paFromMicron(40) })).toBe('good');
    expect(verdictOf(falling(60), 700, { ultimatePa: paFromMicron(15) })).toBe('high_floor');
  });

  test('is given ten minutes to warm where little is lacking', () => {
    const near = { ultimatePa: paFromMicron(15) };
    expect(verdictOf(falling(60), 400, near)).toBe('still_falling');
    expect(verdictOf(falling(90), 400, near)).toBe('high_floor');
  });

  test('is given five minutes', () => {
    expect(verdictOf(falling(400), 200)).toBe('too_early');
    expect(verdictOf(falling(400), 400)).toBe('high_floor');
    expect(verdictOf(falling(60), 200)).toBe('good');
  });

  test('still falls, stays far too high, or rises', () => {
    expect(verdictOf((s) => 4000 * Math.exp(-s / 300), 400)).toBe('still_falling');
    expect(verdictOf(falling(3000), 400)).toBe('far_too_high');
    expect(verdictOf((s) => 80 + 2 * s, 400)).toBe('rising');
    // Down there a sensor’s own steps are large beside the pressure.
    expect(verdictOf((s) => (s > 350 ? 20 : 10), 400)).toBe('good');
  });

  test('is not judged from a sensor on the system, before it runs, or from no reading', () => {
    expect(verdictOf(falling(60), 300, { seesPump: false })).toBe('wrong_view');
    expect(verdictOf(falling(60), 300, { pumpOnS: null })).toBe('not_on');
    expect(verdictOf(falling(60), 300, { readings: [] })).toBe('sensor');
  });

  test('readings from before it was switched on say nothing', () => {
    const before = [{ elapsedS: 90, pressurePa: paFromMicron(10) }];
    expect(verdictOf(falling(60), 30, { readings: before })).toBe('too_early');
  });
});

describe('is not good too easily', () => {
  test('in the first minute', () => {
    expect(verdictOf(() => 50, 6)).toBe('too_early');
    expect(verdictOf(() => 50, 55)).toBe('too_early');
    expect(verdictOf(() => 50, 60)).toBe('good');
  });

  test('by a single low reading, wherever it comes', () => {
    const spikeAt = (atS: number) => (s: number) => (s === atS ? 40 : 1500);
    for (const ranS of [120, 400]) {
      for (const agoS of [0, 5, 10]) {
        const expected = ranS < 300 ? 'too_early' : 'far_too_high';
        expect(verdictOf(spikeAt(ranS - agoS), ranS)).toBe(expected);
      }
    }
    // A minute back, where a rise is told from.
    expect(verdictOf(spikeAt(340), 400)).toBe('far_too_high');
    // A single high one is as little.
    expect(verdictOf((s) => (s === 400 ? 1500 : 60), 400)).toBe('good');
  });

  test('by few readings far apart', () => {
    const at = (elapsedS: number, micron: number) => {
      return { elapsedS, pressurePa: paFromMicron(micron) };
    };
    const readings = [at(200, 1500), at(300, 1500), at(400, 40)];
    expect(verdictOf(() => 0, 300, { readings })).not.toBe('good');
    expect(verdictOf(() => 0, 300, { readings: readings.slice(-1) })).toBe('too_early');
  });

  test('above 500 Pa, whatever figure is entered', () => {
    const entered = { ultimatePa: 10_000 };
    expect(checkPump(factsWith(() => 10_000, 400, entered))).toMatchObject({
      verdict: 'far_too_high',
      shouldReachPa: 500,
    });
    expect(verdictOf(() => 510 / paFromMicron(1), 400, entered)).toBe('far_too_high');
    expect(verdictOf(() => 490 / paFromMicron(1), 400, entered)).toBe('good');
  });
});
