/** When a depth was reached and held. */
import { Depths } from '../../../../web/analysis/readings/depth.ts';
import { expect, test } from 'vitest';

/** A second apart, from 1 s on. */
const depthsOf = (pressuresPa: readonly number[]) =>
  new Depths(pressuresPa.map((pressurePa, i) => ({ elapsedS: i + 1, pressurePa, count: 1 })));
const steady = (pressurePa: number, lengthS: number) =>
  Array.from({ length: lengthS }, () => pressurePa);

test('several depths of one pull-down, in any order, reached, not reached and there all along', () => {
  const depths = depthsOf([...steady(90, 20), ...steady(60, 20), ...steady(40, 20)]);
  expect(depths.firstHeldBelowS(30)).toBeNull();
  expect(depths.firstHeldBelowS(50)).toBe(41);
  expect(depths.firstHeldBelowS(66)).toBe(21);
  expect(depths.firstHeldBelowS(100)).toBe(1);
  expect(depthsOf(steady(40, 20)).firstHeldBelowS(66)).toBe(1);
  expect(depthsOf(steady(90, 20)).heldBelowSinceS(66)).toBeNull();
});

test('a depth that was lost is not held, but it was reached', () => {
  const depths = depthsOf([...steady(60, 20), ...steady(90, 20)]);
  expect(depths.firstHeldBelowS(66)).toBe(1);
  expect(depths.heldBelowSinceS(66)).toBeNull();
  // 80 Pa is not a quarter above it.
  expect(depthsOf([...steady(60, 20), ...steady(80, 20)]).heldBelowSinceS(66)).toBe(1);
});
