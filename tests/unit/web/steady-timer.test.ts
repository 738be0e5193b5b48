/** Timers that a worker keeps; and the page's own ones where there is no worker, or none that answers. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';

let orders: unknown[] = [];
let answer: ((id: number) => void) | null = null;
let fail: (() => void) | null = null;

class PretendWorker {
  onmessage: ((event: { data: number }) => void) | null = null;
  onerror: (() => void) | null = null;

  constructor() {
    answer = (id) => this.onmessage?.({ data: id });
    fail = () => this.onerror?.();
  }

  postMessage(order: unknown): void {
    orders.push(order);
  }
}

/** A page of its own for each test: whether there is a worker is found out once. */
async function page(worker: unknown = PretendWorker) {
  vi.stubGlobal('window', globalThis);
  vi.stubGlobal('Worker', worker);
  vi.resetModules();
  return import('../../../web/connection/steady-timer.ts');
}

beforeEach(() => {
  vi.useFakeTimers();
  orders = [];
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test('the worker says when, and what was ended runs no more', async () => {
  const { every, after } = await page();
  const [again, once] = [vi.fn(), vi.fn()];
  const end = every(500, again);
  after(300, once);
  expect(orders).toEqual([
    { type: 'every', id: 1, everyMs: 500 },
    { type: 'every', id: 2, everyMs: 300 },
  ]);
  for (const id of [1, 2, 1, 2]) answer?.(id);
  expect([again, once].map((run) => run.mock.calls.length)).toEqual([2, 1]);
  end();
  answer?.(1);
  expect(again).toHaveBeenCalledTimes(2);
  expect(orders.slice(2)).toEqual([
    { type: 'end', id: 2 },
    { type: 'end', id: 1 },
  ]);
  // One that is heard is not given up.
  vi.advanceTimersByTime(60_000);
  expect(again).toHaveBeenCalledTimes(2);
});

test.each([
  ['can’t be made', () => Promise.resolve(undefined), null],
  ['fails', () => Promise.resolve(fail?.()), PretendWorker],
  ['never answers', () => vi.advanceTimersByTimeAsync(10_000), PretendWorker],
])('where the worker %s the page’s own timers run', async (_what, happens, worker) => {
  const { every } = await page(worker);
  const [before, later] = [vi.fn(), vi.fn()];
  const end = every(500, before);
  await happens();
  before.mockClear();
  every(400, later);
  vi.advanceTimersByTime(2000);
  expect([before, later].map((run) => run.mock.calls.length)).toEqual([4, 5]);
  end();
  vi.advanceTimersByTime(2000);
  expect(before).toHaveBeenCalledTimes(4);
});
