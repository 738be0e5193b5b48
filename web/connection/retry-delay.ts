/** How long to wait before the connection is tried again: doubling from a quarter second to ten. */

const FIRST_MS = 250;
const LONGEST_MS = 10_000;

/** @param attempt how many tries have failed since the last success, 0 for none */
export function retryDelayMs(attempt: number): number {
  return Math.min(LONGEST_MS, FIRST_MS * 2 ** Math.min(attempt, 10));
}
