/** Gaps found in one pass are those that are there, also where readings come late. */
import { GapFinder } from '../../../../web/analysis/readings/gap-finder.ts';
import type { Heard } from '../../../../web/analysis/readings/gap.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const heard = (sequence: number, boot = 1): Heard => ({ boot, sequence, elapsedS: sequence });

function gapsOf(readings: readonly Heard[]) {
  const finder = new GapFinder();
  for (const reading of readings) finder.insert(reading);
  return finder.gaps();
}

describe('a gap', () => {
  test('has its ends and says how much is missing', () => {
    expect(gapsOf([0, 1, 2, 7, 8].map((at) => heard(at)))).toEqual([
      { fromS: 2, toS: 7, missing: 4, restarted: false },
    ]);
  });

  test('of a sensor that started anew says so', () => {
    expect(gapsOf([heard(0), heard(1), { ...heard(0, 2), elapsedS: 3 }])).toEqual([
      { fromS: 1, toS: 3, missing: null, restarted: true },
    ]);
  });

  test('is a long silence, too, where no number is missing', () => {
    const late = { boot: 1, sequence: 4, elapsedS: 60 };
    expect(gapsOf([0, 1, 2, 3].map((at) => heard(at)).concat(late))).toEqual([
      { fromS: 3, toS: 60, missing: 0, restarted: false },
    ]);
  });

  test('is none where the sensor simply measures seldom', () => {
    const seldom = [0, 1, 2, 3, 4].map((at) => ({ boot: 1, sequence: at, elapsedS: at * 30 }));
    expect(gapsOf(seldom)).toEqual([]);
  });
});

test('late readings leave the gaps that they would have left in time, whatever the order', () => {
  const kept = fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 2, maxLength: 40 });
  fc.assert(
    fc.property(kept, fc.integer({ min: 0, max: 2 ** 31 }), (numbers, seed) => {
      const inTime = [...numbers].sort((a, b) => a - b).map((at) => heard(at));
      const shuffled = [...inTime].sort(
        (a, b) => ((a.sequence * 7919 + seed) % 101) - ((b.sequence * 7919 + seed) % 101),
      );
      const missing = (readings: readonly Heard[]) =>
        gapsOf(readings).filter((gap) => gap.missing !== 0);
      expect(missing(shuffled)).toEqual(missing(inTime));
    }),
  );
});

test('on the worst of radios the memory stays bounded, and what is not kept is counted', () => {
  const finder = new GapFinder();
  for (let at = 0; at < 30_000; at += 1) finder.insert(heard(at * 2));
  expect(finder.gaps()).toHaveLength(10_000);
  expect(finder.notKept).toBe(19_999);
});
