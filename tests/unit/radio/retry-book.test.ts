import { expect, test } from 'vitest';
import { RetryBook } from '../../../server/sources/radio/retry-book.ts';
import type { SessionEnd } from '../../../server/sources/radio/session-end.ts';

const WAITS = { retryMs: 100, longestRetryMs: 400, longestRefusalMs: 1600 };
const failed = (reason: SessionEnd['reason'], delivered = false): SessionEnd => ({
  reason,
  detail: '',
  delivered,
});

/** How long it waits after each of these ends, to the millisecond. */
function waitsAfter(ends: readonly SessionEnd[], book = new RetryBook(WAITS, () => 0)): number[] {
  return ends.map((end, place) => {
    const nowMs = place * 1e6;
    book.note('a', end, nowMs);
    let waitMs = 0;
    while (!book.mayTry('a', nowMs + waitMs)) waitMs += 1;
    return waitMs;
  });
}

test.each([
  ['disconnected', [100, 200, 400, 400, 400, 400]],
  ['unanswered', [100, 200, 400, 400, 400, 400]],
  ['refused', [100, 200, 400, 800, 1600, 1600]],
  ['not_understood', [100, 200, 400, 800, 1600, 1600]],
] as const)('waits longer and longer after %s, but not for ever', (reason, waits) => {
  expect(waitsAfter(waits.map(() => failed(reason)))).toEqual(waits);
});

test('begins anew once readings have come', () => {
  const ends = [failed('refused'), failed('refused'), failed('disconnected', true)];
  expect(waitsAfter([...ends, failed('refused')])).toEqual([100, 200, 100, 200]);
});

test('one sensor’s failures are not another’s', () => {
  const book = new RetryBook(WAITS, () => 0);
  waitsAfter([failed('refused'), failed('refused')], book);
  expect(book.mayTry('b', 0)).toBe(true);
});
