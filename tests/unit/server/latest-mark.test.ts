/** A mark may lie where something can have happened, and nowhere else. */
import { expect, test } from 'vitest';
import { latestMarkS } from '../../../server/http/latest-mark.ts';

const begun = (open: boolean) => ({ open, startedAtMs: 1_000_000 });

test('while it runs: where a job begins a minute after the last reading, else an hour, or after now where the sensor is silent', () => {
  expect(latestMarkS(begun(true), 'job_begun', 100, 1_100_000)).toBe(160);
  expect(latestMarkS(begun(true), 'job_begun', 100, 1_500_000)).toBe(560);
  expect(latestMarkS(begun(true), 'note', 100, 1_100_000)).toBe(3700);
  // A clock that was set back takes nothing away.
  expect(latestMarkS(begun(true), 'job_begun', 100, 0)).toBe(160);
  expect(latestMarkS(begun(true), 'job_begun', null, 1_000_000)).toBe(60);
});

test('once it is over: at its last reading, whatever the clock says', () => {
  expect(latestMarkS(begun(false), 'note', 100, 9_000_000)).toBe(100);
  expect(latestMarkS(begun(false), 'note', null, 9_000_000)).toBe(0);
});
