/** Counters of 32 bits that begin again at 0, gone on with as if they never did. */

const WRAP = 2 ** 32;

/** The number that ends in these 32 bits and lies nearest to one that is known. */
export function unwrapped(counter: number, near: number): number {
  return counter + WRAP * Math.round((near - counter) / WRAP);
}
