/** How long is waited for what, in one place; the tests wait less. Milliseconds unless it says otherwise. */

export interface Patience {
  /** Until the adapter has said what state it is in. */
  readonly adapterMs: number;
  /** Until the sensor is heard. */
  readonly findMs: number;
  /** For its scan response, once it is heard. */
  readonly nameMs: number;
  readonly connectMs: number;
  /** From a request to its answer: section 8 allows 5 s. */
  readonly answerMs: number;
  /** Between a report's stored readings, and to its end: section 8 allows 2 s. */
  readonly reportMs: number;
  /** From the end of a link to advertising: section 8 allows 2 s. */
  readonly againMs: number;
  /** What the radio and this computer add to everything that is timed: a setting of ours. */
  readonly graceMs: number;
  /** So many live readings are looked at. */
  readonly readings: number;
  /** For them at most, however seldom the sensor measures. */
  readonly listenMs: number;
  /** For a single check at most. */
  readonly checkMs: number;
}

export const PATIENCE: Patience = {
  adapterMs: 10_000,
  findMs: 20_000,
  nameMs: 1500,
  connectMs: 10_000,
  answerMs: 5000,
  reportMs: 2000,
  againMs: 2000,
  graceMs: 500,
  readings: 12,
  listenMs: 90_000,
  checkMs: 180_000,
};
