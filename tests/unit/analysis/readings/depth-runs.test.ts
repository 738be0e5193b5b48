/** How long, and in how many samples, a depth has to be held; and lost, before it counts as lost. */
import { Depths, firstHeldBelowS } from '../../../../web/analysis/readings/depth.ts';
import { describe, expect, test } from 'vitest';

const LIMIT_PA = 66;
type Stretch = readonly [pressurePa: number, count: number];
const samplesOf = (...stretches: readonly Stretch[]) =>
  stretches
    .flatMap(([pressurePa, count]) => Array.from({ length: count }, () => pressurePa))
    .map((pressurePa, i) => ({ elapsedS: i, pressurePa, count: 1 }));
const [ABOVE, BELOW] = [90, 60];

describe('a depth is reached', () => {
  test('once it was held for ten seconds, at which it began', () => {
    // The median of five goes down with the curve; at the very end two neighbours are all there is.
    expect(firstHeldBelowS(samplesOf([ABOVE, 20], [BELOW, 10]), LIMIT_PA)).toBeNull();
    expect(firstHeldBelowS(samplesOf([ABOVE, 20], [BELOW, 11]), LIMIT_PA)).toBe(20);
  });

  test('at its very pressure', () => {
    expect(firstHeldBelowS(samplesOf([LIMIT_PA, 20]), LIMIT_PA)).toBe(0);
    expect(firstHeldBelowS(samplesOf([LIMIT_PA + 0.01, 20]), LIMIT_PA)).toBeNull();
  });

  test('in three samples at least', () => {
    const slow = (count: number) =>
      samplesOf([BELOW, count]).map((sample) => ({ ...sample, elapsedS: 20 * sample.elapsedS }));
    expect(firstHeldBelowS(slow(2), LIMIT_PA)).toBeNull();
    expect(firstHeldBelowS(slow(3), LIMIT_PA)).toBe(0);
    expect(firstHeldBelowS([], LIMIT_PA)).toBeNull();
  });

  test('in three that follow one another: those of an earlier stretch do not count', () => {
    // The median of five is low at two of these, twenty seconds apart; then it is high, and low at two again.
    const twice = [ABOVE, ABOVE, BELOW, ABOVE, BELOW, BELOW, ABOVE, ABOVE, ABOVE];
    const samples = samplesOf(
      ...[...twice, ...twice].map((pressurePa) => [pressurePa, 1] as const),
    );
    const slow = samples.map((sample) => ({ ...sample, elapsedS: 20 * sample.elapsedS }));
    expect(firstHeldBelowS(slow, LIMIT_PA)).toBeNull();
  });

  test('without a break: what came back up begins again', () => {
    const broken = samplesOf([ABOVE, 10], [BELOW, 8], [ABOVE, 5], [BELOW, 8]);
    expect(firstHeldBelowS(broken, LIMIT_PA)).toBeNull();
    const again = samplesOf([ABOVE, 10], [BELOW, 8], [ABOVE, 5], [BELOW, 15]);
    expect(firstHeldBelowS(again, LIMIT_PA)).toBe(23);
  });

  test('whatever a spike or two say', () => {
    expect(firstHeldBelowS(samplesOf([BELOW, 6], [900, 2], [BELOW, 6]), LIMIT_PA)).toBe(0);
    expect(firstHeldBelowS(samplesOf([ABOVE, 9], [5, 2], [ABOVE, 9]), LIMIT_PA)).toBeNull();
  });
});

describe('a depth is lost', () => {
  const heldSince = (...stretches: readonly Stretch[]) =>
    new Depths(samplesOf(...stretches)).heldBelowSinceS(LIMIT_PA);

  test('a quarter above it, for as long', () => {
    expect(heldSince([BELOW, 20], [ABOVE, 9])).toBe(0);
    expect(heldSince([BELOW, 20], [ABOVE, 11])).toBeNull();
    expect(heldSince([BELOW, 20], [1.25 * LIMIT_PA, 40])).toBe(0);
    expect(heldSince([LIMIT_PA, 20])).toBe(0);
  });

  test('and held anew from where it comes back', () => {
    expect(heldSince([BELOW, 20], [ABOVE, 20], [BELOW, 20])).toBe(40);
    // A moment above is no loss, nor a moment below a return.
    expect(heldSince([BELOW, 20], [ABOVE, 6], [BELOW, 20])).toBe(0);
    expect(heldSince([BELOW, 20], [ABOVE, 20], [BELOW, 8])).toBeNull();
  });

  test('whichever depth was asked for before', () => {
    const depths = new Depths(samplesOf([ABOVE, 20], [BELOW, 20], [40, 20], [BELOW, 20]));
    expect(depths.heldBelowSinceS(30)).toBeNull();
    expect(depths.heldBelowSinceS(45)).toBeNull();
    expect(depths.heldBelowSinceS(LIMIT_PA)).toBe(20);
    expect(depths.firstHeldBelowS(45)).toBe(40);
    // The same when asked again, and the two are not mixed up.
    expect(depths.firstHeldBelowS(45)).toBe(40);
    expect(depths.heldBelowSinceS(45)).toBeNull();
  });
});
