/** The samples of a pull-down and the depths it has come to: once it is over, they stay as they are. */
import { Depths } from './depth.ts';
import type { History } from './history.ts';
import { samplesFromBins, type Sample } from './samples.ts';

interface Pumped {
  readonly samples: readonly Sample[];
  readonly depths: Depths;
}

interface Kept extends Pumped {
  readonly fromS: number;
  readonly toS: number;
  readonly lateReadings: number;
}

/** The latest that was asked for, of each history. */
const latest = new WeakMap<History, Kept>();

/** @param toS readings after its whole second change nothing */
export function pumpedSamples(history: History, fromS: number, toS: number): Pumped {
  const { lastS, lateReadings } = history;
  const kept = latest.get(history);
  const isKept = kept?.fromS === fromS && kept.toS === toS && kept.lateReadings === lateReadings;
  if (isKept) return kept;
  const samples = samplesFromBins(history.bins(fromS, Math.floor(toS)));
  const pumped = { samples, depths: new Depths(samples) };
  if (lastS !== null && lastS > toS) latest.set(history, { ...pumped, fromS, toS, lateReadings });
  return pumped;
}
