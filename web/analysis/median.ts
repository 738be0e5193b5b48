/** Medians, of a whole list and along a series. */

/** The median, or 0 of nothing. */
export function median(values: readonly number[]): number {
  // A typed array sorts by number, and several times as fast as a list with a comparison.
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2;
}

/**
 * For each value the median of itself, `before` values before it and `after` after it; fewer at the
 * ends. For narrow windows: it sorts each anew, by insertion, and allocates nothing while it does.
 */
export function runningMedian(values: readonly number[], before: number, after: number): number[] {
  const window = new Float64Array(before + after + 1);
  return values.map((_, i) => {
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
    return size % 2 === 1 ? upper : ((window[middle - 1] ?? 0) + upper) / 2;
  });
}
