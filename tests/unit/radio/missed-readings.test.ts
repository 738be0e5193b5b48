import { expect, test } from 'vitest';
import { MissedReadings } from '../../../server/sources/radio/missed-readings.ts';

function heard(missed: MissedReadings, boot: number, ...numbers: number[]): void {
  for (const number of numbers) missed.note(boot, number, false);
}

test('the oldest stretch that never came is asked for first, three times, and then the next', () => {
  const missed = new MissedReadings();
  heard(missed, 1, 0, 10, 20);
  expect(missed.count).toBe(18);
  const first = { from: 1, to: 9 };
  const second = { from: 11, to: 19 };
  expect([1, 2, 3, 4].map(() => missed.next())).toEqual([first, first, first, second]);
  missed.settle(second);
  expect(missed.next()).toBeNull();
  missed.reconnected();
  expect(missed.next()).toEqual(first);
  for (let number = 1; number < 10; number += 1) missed.note(1, number, true);
  expect([missed.count, missed.next()]).toEqual([0, null]);
});

test('nothing before the first reading that was ever heard is missed', () => {
  const missed = new MissedReadings();
  heard(missed, 1, 500);
  expect(missed.next()).toBeNull();
});

test('a sensor that was restarted has measured since, from number 0 on', () => {
  const missed = new MissedReadings();
  heard(missed, 1, 500, 501);
  heard(missed, 2, 600);
  expect(missed.next()).toEqual({ from: 0, to: 599 });
});

test('a request never spans the wrap of the sensor’s counter', () => {
  const missed = new MissedReadings();
  heard(missed, 1, 2 ** 32 - 3, 2);
  const before = missed.next();
  expect(before).toEqual({ from: 2 ** 32 - 2, to: 2 ** 32 - 1 });
  missed.settle(before ?? { from: 0, to: 0 });
  expect(missed.next()).toEqual({ from: 2 ** 32, to: 2 ** 32 + 1 });
});

test('goes on where the bridge ended, unless the sensor has been heard since', () => {
  const point = {
    boot: 1,
    numbers: [
      { from: 0, to: 10 },
      { from: 15, to: 20 },
    ],
    lastNumber: 20,
    lastUptimeMs: 2000,
    lastElapsedS: 2,
  };
  const missed = new MissedReadings();
  missed.resume(point);
  heard(missed, 1, 30);
  expect(missed.next()).toEqual({ from: 11, to: 14 });
  const later = new MissedReadings();
  heard(later, 1, 30);
  later.resume(point);
  expect(later.next()).toBeNull();
});

test('a sensor that sends every second number is not remembered without end', () => {
  const missed = new MissedReadings();
  for (let number = 0; number < 40_000; number += 2) missed.note(1, number, false);
  expect(missed.count).toBeLessThan(1000);
});
