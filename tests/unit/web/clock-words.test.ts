/** The time of day as the page says it: today's alone, another day's with its date, wherever the laptop is. */
import { afterEach, describe, expect, test, vi } from 'vitest';
import { clockWords, dayAndTime } from '../../../web/parts/clock-words.ts';
import { MICRON } from '../../support/english-speech.ts';

const NOON_MS = Date.UTC(2026, 10, 26, 12, 5, 9);

afterEach(() => {
  vi.unstubAllEnvs();
  vi.useRealTimers();
});

describe('a moment', () => {
  test('of today is its time, with seconds where they matter', () => {
    vi.stubEnv('TZ', 'UTC');
    vi.useFakeTimers({ now: NOON_MS + 3_600_000, toFake: ['Date'] });
    expect(clockWords(NOON_MS, MICRON)).toBe('12:05');
    expect(clockWords(NOON_MS, MICRON, true)).toBe('12:05:09');
  });

  test('of another day has its date before it', () => {
    vi.stubEnv('TZ', 'UTC');
    vi.useFakeTimers({ now: NOON_MS + 24 * 3_600_000, toFake: ['Date'] });
    expect(clockWords(NOON_MS, MICRON)).toBe('26 Nov, 12:05');
    expect(dayAndTime(NOON_MS, MICRON)).toEqual({ day: '26 Nov 2026', time: '12:05' });
  });

  test('just after midnight is 00, not 24', () => {
    vi.stubEnv('TZ', 'UTC');
    expect(dayAndTime(Date.UTC(2026, 10, 26, 0, 7), MICRON).time).toBe('00:07');
  });

  test('is said in the zone in which the laptop is now', () => {
    vi.stubEnv('TZ', 'UTC');
    expect(dayAndTime(NOON_MS, MICRON).time).toBe('12:05');
    vi.stubEnv('TZ', 'America/New_York');
    expect(dayAndTime(NOON_MS, MICRON).time).toBe('07:05');
  });
});
