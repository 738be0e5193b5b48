/** The time that passes while somebody rehearses; a test puts its own in its place. */
export interface RehearsalClock {
  /** Monotonic milliseconds. */
  monotonicMs(): number;
  /** Wall-clock milliseconds since 1970 UTC, for labels. */
  wallMs(): number;
  /** Calls again and again until the function that it returns is called. */
  every(intervalMs: number, call: () => void): () => void;
}

export const REAL_CLOCK: RehearsalClock = {
  monotonicMs: () => performance.now(),
  wallMs: () => Date.now(),
  every: (intervalMs, call) => {
    const timer = setInterval(call, intervalMs);
    return () => clearInterval(timer);
  },
};
