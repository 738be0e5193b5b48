/** What a session leaves behind in the judge's memory, hour by hour. */
import { History } from '../../../../web/analysis/readings/history.ts';
import { NarrowColumn } from '../../../../web/analysis/readings/narrow-column.ts';
import { stageBins } from '../../../../web/analysis/stages/stage-bins.ts';
import { pullDownPa } from '../../../bench/long-session.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const HOUR_S = 3600;

function sessionOf(hours: number, hertz: number): History {
  const history = new History();
  for (let row = 0; row < hours * HOUR_S * hertz; row += 1) {
    const elapsedS = row / hertz;
    const pressurePa = pullDownPa(elapsedS);
    history.insert({ elapsedS, pressurePa, condition: 'ok', temperatureC: 20 });
  }
  return history;
}

test('an hour more leaves less than 85 kB of bins, whatever the rate', () => {
  // The finest layer's 3600 · 20 B, and a fifteenth of it for the coarser ones; blocks are begun whole.
  for (const hertz of [1, 10]) {
    const [early, late] = [sessionOf(1, hertz).bytes, sessionOf(24, hertz).bytes];
    expect((late - early) / 23).toBeLessThan(85e3);
  }
});

test('what is read of a day is bounded', () => {
  const history = sessionOf(24, 1);
  const counts = [1, 2, 4, 8, 16, 24].map((hours) => stageBins(history, hours * HOUR_S).length);
  // 4096 before the border and 1536 after it.
  expect(Math.max(...counts)).toBeLessThan(4096 + 1536);
  // It moves to 16 times as coarse when that many are full, at 18 h.
  expect(counts.at(-1)).toBeLessThan(counts.at(-2) ?? 0);
});

test('a column holds any whole numbers to the digit, in the bytes that the largest needs', () => {
  const whole = fc.oneof(
    fc.integer({ min: -300, max: 300 }),
    fc.integer({ min: -70_000, max: 70_000 }),
    fc.maxSafeInteger(),
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.nat({ max: 15 }), whole)), (writes) => {
      const column = new NarrowColumn(16);
      const plain = new Float64Array(16);
      for (const [place, value] of writes) {
        column.set(place, value);
        plain[place] = value;
      }
      expect(Array.from(plain, (_, place) => column.at(place))).toEqual(Array.from(plain));
      const largest = Math.max(0, ...writes.map(([, value]) => Math.abs(value)));
      const width = largest < 2 ** 7 ? 1 : largest < 2 ** 15 ? 2 : largest < 2 ** 31 ? 4 : 8;
      expect(column.bytes).toBe(largest === 0 ? 0 : 16 * width);
    }),
  );
});
