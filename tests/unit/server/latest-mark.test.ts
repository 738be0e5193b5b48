/** A mark may lie where something can have happened, and nowhere else. */
import { expect, test } from 'vitest';
import { latestMarkS } from '../../../server/http/latest-mark.ts';

const begun = (open: boolean) => ({ open, startedAtMs: 1_000_000 });

test('while it runs: a minute after the last reading, or after now where the sensor is silent', () => {
  expect(latestMarkS(begun(true), 100, 1_100_000)).toBe(160);
  expect(latestMarkS(begun(true), 100, 1_500_000)).toBe(560);
  // A clock that was set back takes nothing away.
  expect(latestMarkS(begun(true), 100, 0)).toBe(160);
  expect(latestMarkS(begun(true), null, 1_000_000)).toBe(60);
});

test('once it is over: at its last reading, whatever the clock says', () => {
  expect(latestMarkS(begun(false), 100, 9_000_000)).toBe(100);
  expect(latestMarkS(begun(false), null, 9_000_000)).toBe(0);
});
