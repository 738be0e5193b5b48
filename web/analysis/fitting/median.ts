/** Medians, of a whole list and along a series. */

/** Beyond so many values, putting them all in order is more work than to find the middle. */
const FEW = 16;

/** The median, or 0 of nothing. */
export function median(values: ArrayLike<number>): number {
  const copy = roomFor(values.length);
  for (let i = 0; i < values.length; i += 1) copy[i] = values[i] ?? 0;
  return medianInPlace(copy, values.length);
}

/** Of the first `count` values, which are put into another order. */
export function medianInPlace(values: Float64Array, count: number): number {
  const middle = count >> 1;
  if (count <= FEW) insertionSort(values, count);
  else putInPlace(values, middle, count);
  const upper = values[middle] ?? 0;
  if (count === 0) return 0;
  if (count % 2 === 1) return upper;
  let lower = values[0] ?? 0;
  for (let i = 1; i < middle; i += 1) lower = Math.max(lower, values[i] ?? lower);
  return (lower + upper) / 2;
}

/** The value that stands at a place once they are in ascending order, from 0 on; 0 of nothing. */
export function valueAtPlace(values: ArrayLike<number>, place: number): number {
  const copy = roomFor(values.length);
  for (let i = 0; i < values.length; i += 1) copy[i] = values[i] ?? 0;
  putInPlace(copy, place, values.length);
  return place < values.length ? (copy[place] ?? 0) : 0;
}

/** One at a time needs it, so that looking for a median allocates nothing. */
let room = new Float64Array(256);

function roomFor(count: number): Float64Array {
  if (count > room.length) room = new Float64Array(2 * count);
  return room;
}

function insertionSort(values: Float64Array, count: number): void {
  for (let i = 1; i < count; i += 1) {
    const value = values[i] ?? 0;
    let place = i;
    for (; place > 0 && (values[place - 1] ?? 0) > value; place -= 1) {
      values[place] = values[place - 1] ?? 0;
    }
    values[place] = value;
  }
}

/**
 * Moves values about until the one at `place` is the one that belongs there in ascending order, and
 * none before it is greater (Hoare, Algorithm 65: Find, Communications of the ACM 4, 1961, 321).
 */
function putInPlace(values: Float64Array, place: number, count: number): void {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const pivot = values[place] ?? 0;
    let left = low;
    let right = high;
    while (left <= right) {
      while ((values[left] ?? 0) < pivot) left += 1;
      while ((values[right] ?? 0) > pivot) right -= 1;
      if (left > right) break;
      const moved = values[left] ?? 0;
      values[left] = values[right] ?? 0;
      values[right] = moved;
      left += 1;
      right -= 1;
    }
    if (right < place) low = left;
    if (left > place) high = right;
  }
}

/** The median of five: of the middle pair once the least and the greatest of four are left out. */
export function medianOfFive(a: number, b: number, c: number, d: number, e: number): number {
  // Of two pairs in order the lesser of the lows and the greater of the highs are not it.
  const low = Math.max(Math.min(a, b), Math.min(c, d));
  const high = Math.min(Math.max(a, b), Math.max(c, d));
  return Math.max(Math.min(low, high), Math.min(Math.max(low, high), e));
}

/**
 * For each value the median of itself, `before` values before it and `after` after it; fewer at the
 * ends. For narrow windows: it sorts each anew, by insertion, and allocates nothing while it does.
 */
export function mediansAlong(
  values: ArrayLike<number>,
  before: number,
  after: number,
): Float64Array {
  const window = new Float64Array(before + after + 1);
  const medians = new Float64Array(values.length);
  const isOfFive = before === 2 && after === 2;
  for (let i = 0; i < values.length; i += 1) {
    if (isOfFive && i >= 2 && i + 2 < values.length) {
      const before1 = values[i - 1] ?? 0;
      const after1 = values[i + 1] ?? 0;
      const here = values[i] ?? 0;
      medians[i] = medianOfFive(values[i - 2] ?? 0, before1, here, after1, values[i + 2] ?? 0);
      continue;
    }
    const from = Math.max(0, i - before);
    const to = Math.min(values.length - 1, i + after);
    let size = 0;
    for (let j = from; j <= to; j += 1) {
      const value = values[j] ?? 0;
      let place = size;
      for (; place > 0 && (window[place - 1] ?? 0) > value; place -= 1) {
        window[place] = window[place - 1] ?? 0;
      }
      window[place] = value;
      size += 1;
    }
    const middle = size >> 1;
    const upper = window[middle] ?? 0;
    medians[i] = size % 2 === 1 ? upper : ((window[middle - 1] ?? 0) + upper) / 2;
  }
  return medians;
}
