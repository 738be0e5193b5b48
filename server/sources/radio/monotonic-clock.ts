/**
 * Milliseconds on the machine's monotonic clock: it never goes back, and it counts the same in
 * every process of this machine.
 */
export function monotonicMs(): number {
  return Number(process.hrtime.bigint()) / 1e6;
}
