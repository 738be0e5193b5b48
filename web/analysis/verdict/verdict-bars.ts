/** How sure a word has to be, to be said and to be kept. */
import { STEEPENS_SIGMAS } from '../rise/steepening.ts';

/**
 * Probabilities for a word. A pass needs more: a leak above the limit as good as excluded, and the upper
 * end of the inflow below so large a share of it.
 */
export interface Bar {
  readonly tight: number;
  readonly leakAboveLimit: number;
  readonly shareOfLimit: number;
  /** From so many of its standard errors on a rise counts as growing steeper. */
  readonly steepeningSigmas: number;
  /** Whether a growth that the readings are too coarse to show counts. */
  readonly unseenGrowth: boolean;
  /** So many times as water in balance the gas may come and go with the temperature: what walls hold clings faster. */
  readonly timesWater: number;
  /** Whether it may yet turn out that the hold doesn't keep its rule. */
  readonly ruleMayBreak: boolean;
  readonly moisture: number;
  readonly leak: number;
  /** More than for a leak alone: a quick release and a slow one together look like it. */
  readonly leakAndMoisture: number;
  /** Which of the two words that name a leak. */
  readonly whichLeak: number;
}

/** A word is said from here on … */
export const SAID: Bar = {
  tight: 0.8,
  leakAboveLimit: 0.003,
  shareOfLimit: 0.72,
  steepeningSigmas: STEEPENS_SIGMAS,
  unseenGrowth: true,
  timesWater: 1.3,
  ruleMayBreak: false,
  moisture: 0.92,
  leak: 0.93,
  leakAndMoisture: 0.98,
  whichLeak: 0.7,
};

/** … and kept as far as here: it shall not come and go. Settings of ours. */
export const KEPT: Bar = {
  tight: 0.5,
  leakAboveLimit: 0.02,
  shareOfLimit: 0.88,
  steepeningSigmas: 2,
  unseenGrowth: false,
  timesWater: 1.2,
  ruleMayBreak: true,
  moisture: 0.88,
  leak: 0.88,
  leakAndMoisture: 0.95,
  whichLeak: 0.6,
};
