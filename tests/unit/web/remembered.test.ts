/** What a browser remembers, and what is left where it refuses to store. */
import { afterEach, expect, test, vi } from 'vitest';
import { z } from 'zod';
import { forgetEarliest, recall, remember } from '../../../web/store/remembered.ts';

afterEach(() => vi.unstubAllGlobals());

function storage(setItem: (key: string, value: string) => void): Map<string, string> {
  const kept = new Map<string, string>();
  const getItem = (key: string) => kept.get(key) ?? null;
  vi.stubGlobal('localStorage', { getItem, setItem });
  return kept;
}

test('what is stored is read again, and what has another form is not', () => {
  const kept = storage((key, value) => void kept.set(key, value));
  remember('a', 7);
  expect(recall('a', z.number(), 0)).toBe(7);
  expect(recall('a', z.string(), 'none')).toBe('none');
});

test('what a browser refuses to store is known for as long as the page is open', () => {
  storage(() => {
    throw new Error('quota');
  });
  expect(recall('b', z.number(), 0)).toBe(0);
  remember('b', 7);
  expect(recall('b', z.number(), 0)).toBe(7);
});

test('what could be stored at last counts, also once another page has changed it', () => {
  storage(() => {
    throw new Error('quota');
  });
  remember('c', 7);
  const kept = storage((key, value) => void kept.set(key, value));
  remember('c', 8);
  for (const key of kept.keys()) kept.set(key, '9');
  expect(recall('c', z.number(), 0)).toBe(9);
});

test('the recordings that began earliest are forgotten, and nothing else', () => {
  const kept: Record<string, string> = { 'ebbline.choices': '1', 'other.log.1.1': '1' };
  for (let day = 1; day <= 100; day += 1) kept[`ebbline.log.${day * 1000}.${day}`] = '1';
  vi.stubGlobal('localStorage', {
    ...kept,
    removeItem: (key: string) => Reflect.deleteProperty(kept, key),
  });
  forgetEarliest('log.');
  expect(Object.keys(kept)).toHaveLength(62);
  expect(kept).toHaveProperty(['ebbline.log.41000.41']);
  expect(kept).not.toHaveProperty(['ebbline.log.40000.40']);
  expect(kept).toHaveProperty(['other.log.1.1']);
});
