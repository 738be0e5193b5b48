/** Evacuations of a job with nitrogen between them, told from its stages: how deep each came, and what it was broken to. */
import type { Stage } from './conclusions.ts';
import type { History } from './history.ts';
import { median } from './median.ts';
import { samplesFromBins, type Sample } from './samples.ts';

export interface Cycle {
  /** Pump on. */
  readonly fromS: number;
  /** Broken, or the present. */
  readonly toS: number;
  /** The deepest that lasted for some readings; null where the sensor saw none. */
  readonly depthPa: number | null;
  /** Where it stood before it was broken, or stands. */
  readonly endPa: number | null;
  readonly isBroken: boolean;
  /** What it was broken to, as far as the sensor's range reaches; null: beyond it, or not yet. */
  readonly brokenToPa: number | null;
  /** Valved off, and until when. */
  readonly holds: readonly { readonly fromS: number; readonly toS: number }[];
}

/** So many samples have to be as deep: one alone may be a spike. */
const RUN = 5;
/** Hands mark a break a little early or late; the pressure before it is taken from here to there. Settings of ours. */
const BEFORE_S = 75;
const NEAR_S = 15;

/** Air let in by opening the system undoes what was before: it begins anew there. */
export function evacuationCycles(
  history: History,
  stages: readonly Stage[],
  nowS: number,
): Cycle[] {
  const cycles: Cycle[] = [];
  let fromS: number | null = null;
  let holds: { fromS: number; toS: number }[] = [];
  const close = (toS: number, isBroken: boolean, brokenToPa: number | null): void => {
    if (fromS === null) return;
    const samples = samplesFromBins(history.bins(fromS, toS));
    cycles.push({
      fromS,
      toS,
      depthPa: deepest(samples),
      endPa: isBroken
        ? levelIn(samples, toS - BEFORE_S, toS - NEAR_S)
        : levelIn(samples, toS - NEAR_S, toS),
      isBroken,
      brokenToPa,
      holds,
    });
    fromS = null;
    holds = [];
  };
  for (const [at, { name, sinceS }] of stages.entries()) {
    const untilS = stages[at + 1]?.sinceS ?? nowS;
    switch (name) {
      case 'waiting':
      case 'pump_stopped':
        break;
      case 'pull_down':
      case 'at_depth':
        fromS ??= sinceS;
        break;
      case 'rise':
        fromS ??= sinceS;
        holds.push({ fromS: sinceS, toS: untilS });
        break;
      case 'nitrogen_break':
        close(sinceS, true, filledTo(history, sinceS, untilS));
        break;
      case 'vented':
        fromS = null;
        holds = [];
        cycles.length = 0;
        break;
    }
  }
  close(nowS, false, null);
  return cycles;
}

function deepest(samples: readonly Sample[]): number | null {
  const runs = samples.slice(RUN - 1).map((_, at) => levelOf(samples.slice(at, at + RUN)));
  return runs.length === 0 ? null : Math.min(...runs);
}

function levelIn(samples: readonly Sample[], fromS: number, toS: number): number | null {
  const within = samples.filter(({ elapsedS }) => elapsedS >= fromS && elapsedS <= toS);
  return within.length === 0 ? null : levelOf(within);
}

function levelOf(samples: readonly Sample[]): number {
  return median(samples.map(({ pressurePa }) => pressurePa));
}

/** Null where it left the sensor's range. */
function filledTo(history: History, fromS: number, toS: number): number | null {
  const bins = history.bins(fromS, toS);
  if (bins.some(({ pressurePa, overRange }) => pressurePa === null || overRange > 0)) return null;
  const highest = samplesFromBins(bins).map(({ pressurePa }) => pressurePa);
  return highest.length < RUN ? null : median(highest.sort((a, b) => b - a).slice(0, RUN));
}
