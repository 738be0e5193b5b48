/** What a sensor keeps of its readings, and which of them a selection means. */
import { expect, test } from 'vitest';
import type { Selection } from '../../../protocol/record-access.ts';
import { ReadingStore } from '../../../simulators/sensor/reading-store.ts';
import { readingBytes } from '../../support/reading-bytes.ts';

/** Numbers 90 to 93 of boot 4, then 0 to 9 of boot 5. */
function filled(depth: number): ReadingStore {
  const store = new ReadingStore(depth);
  for (let i = 90; i < 94; i += 1) store.keep(readingBytes({ boot: 4, sequence: i }));
  for (let i = 0; i < 10; i += 1) store.keep(readingBytes({ boot: 5, sequence: i }));
  return store;
}

function numbers(store: ReadingStore, selection: Selection): number[] {
  return store.select(selection, 5).map((bytes) => Buffer.from(bytes).readUInt32LE(3));
}

test.each([
  [{ operator: 'all' }, [90, 91, 92, 93, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9]],
  [{ operator: 'upTo', to: 2 }, [0, 1, 2]],
  [{ operator: 'from', from: 7 }, [7, 8, 9]],
  [{ operator: 'from', from: 10 }, []],
  [{ operator: 'within', from: 3, to: 5 }, [3, 4, 5]],
  [{ operator: 'within', from: 9, to: 4_294_967_295 }, [9]],
  [{ operator: 'within', from: 90, to: 93 }, []],
  [{ operator: 'first' }, [0]],
  [{ operator: 'last' }, [9]],
] satisfies [Selection, number[]][])('%j means %j', (selection, expected) => {
  expect(numbers(filled(100), selection)).toEqual(expected);
});

test.each([1, 3, 10, 12, 14])('with room for %i it keeps the latest, oldest first', (depth) => {
  const all = [90, 91, 92, 93, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
  expect(numbers(filled(depth), { operator: 'all' })).toEqual(all.slice(-depth));
});

test('gives back the bytes unchanged, and nothing of what it has forgotten', () => {
  const store = filled(3);
  const bytes = readingBytes({ boot: 5, sequence: 10, pressurePa: 66.661 });
  store.keep(bytes);
  expect(store.select({ operator: 'last' }, 5)).toEqual([bytes]);
  store.forget();
  expect(store.select({ operator: 'all' }, 5)).toEqual([]);
  store.keep(bytes);
  expect(store.select({ operator: 'all' }, 5)).toEqual([bytes]);
});

test('without room, or of bytes that are no reading, it keeps nothing', () => {
  expect(numbers(filled(0), { operator: 'all' })).toEqual([]);
  const store = new ReadingStore(5);
  store.keep(Uint8Array.of(1, 2, 3));
  expect(store.select({ operator: 'all' }, 5)).toEqual([]);
});
