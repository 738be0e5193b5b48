import { expect, test } from 'vitest';
import { SleepWatch } from '../../../server/sources/radio/sleep-watch.ts';

/** What is told after each step of the wall's and the monotonic clock, s. */
function told(steps: readonly (readonly [wallS: number, monotonicS: number])[]): number[] {
  let [wallS, monotonicS] = [1000, 50];
  const watch = new SleepWatch(
    () => wallS * 1000,
    () => monotonicS * 1000,
  );
  return steps.map(([wall, monotonic]) => {
    wallS += wall;
    monotonicS += monotonic;
    return watch.sleptMs() / 1000;
  });
}

test('an hour in which only the wall’s clock went on is an hour of sleep, and stays one', () => {
  expect(
    told([
      [1, 1],
      [3601, 1],
      [1, 1],
      [61, 1],
    ]),
  ).toEqual([0, 3600, 3600, 3660]);
});

test('a wall clock that is corrected, set back, or set by days is no sleep', () => {
  expect(
    told([
      [3, 1],
      [-3600, 1],
      [9 * 86_400, 1],
      [1, 1],
    ]),
  ).toEqual([0, 0, 0, 0]);
});
