import { EventEmitter } from 'node:events';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { DeadlineError, eventWithin, pause } from '../../../server/sources/radio/deadline.ts';
import type { Wait } from '../../../server/sources/radio/deadline.ts';

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

describe('waiting for an event', () => {
  const emitter = new EventEmitter();
  const waitWith = (signal: AbortSignal, more: Partial<Wait<number>> = {}): Promise<number> =>
    eventWithin<number>({
      what: 'number',
      emitter,
      event: 'number',
      limitMs: 1000,
      signal,
      begin: () => undefined,
      take: (value) => (typeof value === 'number' && value > 0 ? value : undefined),
      ...more,
    });
  afterEach(() => {
    expect(emitter.listenerCount('number')).toBe(0);
    expect(vi.getTimerCount()).toBe(0);
  });

  test('takes the first that is the one', async () => {
    const waiting = waitWith(new AbortController().signal);
    for (const value of ['no', -1, 5, 6]) emitter.emit('number', value);
    expect(await waiting).toBe(5);
  });

  test('hears what the request itself brings about', async () => {
    const begin = (): boolean => emitter.emit('number', 3);
    expect(await waitWith(new AbortController().signal, { begin })).toBe(3);
  });

  test('fails when nothing came in time, and says what was waited for', async () => {
    const failed = expect(waitWith(new AbortController().signal)).rejects.toThrow(
      /number.*1000 ms/,
    );
    await vi.advanceTimersByTimeAsync(1000);
    await failed;
  });

  test('is cut short with the reason of the signal', async () => {
    const link = new AbortController();
    const waiting = waitWith(link.signal);
    const reason = new Error('the link was lost');
    link.abort(reason);
    await expect(waiting).rejects.toBe(reason);
  });

  test('asks for nothing when it is too late already', async () => {
    const begin = vi.fn();
    await expect(waitWith(AbortSignal.abort(new Error('gone')), { begin })).rejects.toThrow('gone');
    expect(begin).not.toHaveBeenCalled();
  });

  test.each([
    [
      'asking',
      {
        begin: () => {
          throw new Error('refused');
        },
      },
    ],
    [
      'the answer',
      {
        begin: () => emitter.emit('number', 1),
        take: () => {
          throw new Error('refused');
        },
      },
    ],
  ])('fails with what %s throws', async (_, more) => {
    await expect(waitWith(new AbortController().signal, more)).rejects.toThrow('refused');
  });

  test('leaves no listener on the signal either', async () => {
    const { signal } = new AbortController();
    const added = vi.spyOn(signal, 'addEventListener');
    const removed = vi.spyOn(signal, 'removeEventListener');
    const failed = expect(waitWith(signal)).rejects.toBeInstanceOf(DeadlineError);
    await vi.advanceTimersByTimeAsync(1000);
    await failed;
    expect(removed.mock.calls.map((call) => call[1])).toEqual(
      added.mock.calls.map((call) => call[1]),
    );
  });
});

describe('a pause', () => {
  test('ends by itself', async () => {
    const done = vi.fn();
    const pausing = pause(500, new AbortController().signal).then(done);
    await vi.advanceTimersByTimeAsync(499);
    expect(done).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(1);
    await pausing;
  });

  test('is cut short, and leaves no timer', async () => {
    const cause = new AbortController();
    const pausing = pause(500, cause.signal);
    cause.abort(new Error('over'));
    await expect(pausing).rejects.toThrow('over');
    expect(vi.getTimerCount()).toBe(0);
  });
});
