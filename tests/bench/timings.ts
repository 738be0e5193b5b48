/** Timing single calls, and what of the timings is told. */

/** A clock in ms; only differences count. */
type Clock = () => number;

/** The wall's: for what takes less than a microsecond. */
export const wallMs: Clock = () => performance.now();

/** The processor's own time in this process: what else a busy machine does is not in it. */
export const processorMs: Clock = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** How long each turn took, ms, in ascending order. */
export function timings(turns: number, clock: Clock, work: (turn: number) => void): number[] {
  const tookMs: number[] = [];
  for (let turn = 0; turn < turns; turn += 1) {
    const beganMs = clock();
    work(turn);
    tookMs.push(clock() - beganMs);
  }
  return tookMs.sort((a, b) => a - b);
}

/** The time that so large a share of the turns stays within, ms. */
export function quantile(ascendingMs: readonly number[], share: number): number {
  return ascendingMs[Math.min(Math.floor(share * ascendingMs.length), ascendingMs.length - 1)] ?? 0;
}
