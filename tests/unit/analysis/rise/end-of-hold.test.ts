/** Where a hold will end, from curves that are no sum of exponentials and have no noise to hide it. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { assessRise } from '../../../../web/analysis/verdict/rise.ts';
import { between, historyOf, logBetween, seeded } from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

const CURVES = 40;
const HOLD_S = 600;
const ISOLATED_S = 30;
const HOLD = { isolatedS: ISOLATED_S, isMarked: true, isolationSure: true };
const SHEET = { ...DEFAULT_SHEET, holdS: HOLD_S };

/** A release with a wide spread of time constants: a stretched exponential (Kohlrausch 1854; from memory). */
function inventedRise(seed: number): (heldS: number) => number {
  const random = seeded(seed);
  const startPa = between(random, 20, 50);
  const risePa = logBetween(random, 20, 200);
  const tauS = logBetween(random, 100, 1000);
  const power = between(random, 0.4, 0.7);
  const released = (heldS: number) => -Math.expm1(-((heldS / tauS) ** power));
  return (heldS) => startPa + (risePa * released(heldS)) / released(HOLD_S);
}

test.each([120, 300])(
  'said at %i s, four in five of the intervals hold at least, where nothing of it was foreseen',
  (saidS) => {
    let held = 0;
    for (let seed = 1; seed <= CURVES; seed += 1) {
      const truePa = inventedRise(seed);
      const points = Array.from({ length: ISOLATED_S + saidS + 1 }, (_, elapsedS) => ({
        elapsedS,
        pressurePa: truePa(Math.max(elapsedS - ISOLATED_S, 0)),
        condition: 'ok' as const,
        temperatureC: null,
      }));
      const { endOfHold: said } = assessRise(historyOf(points), HOLD, SHEET, ISOLATED_S + saidS);
      const endPa = truePa(HOLD_S);
      if (said.low <= endPa && endPa <= said.high) held += 1;
    }
    expect(held).toBeGreaterThanOrEqual(0.8 * CURVES);
  },
);

/** What evens out within seconds, and then a release or a leak that goes on for longer than the hold. */
function quickThenSlow(seed: number): (heldS: number) => number {
  const random = seeded(seed);
  const startPa = between(random, 20, 50);
  const quickPa = startPa * between(random, 0.05, 0.2);
  const quickS = between(random, 2, 5);
  const slowPa = logBetween(random, 20, 200);
  const slowS = logBetween(random, 300, 3000);
  return (heldS) =>
    startPa - quickPa * Math.expm1(-heldS / quickS) - slowPa * Math.expm1(-heldS / slowS);
}

test('said at the first minute, an end is not taken for near because pressures evened out within seconds', () => {
  let below = 0;
  for (let seed = 1; seed <= CURVES; seed += 1) {
    const truePa = quickThenSlow(seed);
    const points = Array.from({ length: ISOLATED_S + 61 }, (_, elapsedS) => ({
      elapsedS,
      pressurePa: truePa(Math.max(elapsedS - ISOLATED_S, 0)),
      condition: 'ok' as const,
      temperatureC: null,
    }));
    const { endOfHold: said } = assessRise(historyOf(points), HOLD, SHEET, ISOLATED_S + 60);
    if (truePa(HOLD_S) > said.high) below += 1;
  }
  expect(below).toBeLessThanOrEqual(0.1 * CURVES);
});
