/** Evacuations of a job with nitrogen between them, told from its stages: how deep each came, and what it was broken to. */
import { STANDARD_ATMOSPHERE_PA } from '../../../protocol/units.ts';
import type { Stage } from '../conclusions.ts';
import { median } from '../fitting/median.ts';
import type { History } from '../readings/history.ts';
import { keptPast } from '../readings/kept-past.ts';
import { samplesFromBins, type Sample } from '../readings/samples.ts';

export interface RestedFill {
  readonly atS: number;
  readonly restPa: number;
}

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
  /**
   * It came up as if filled, nobody marked nitrogen, and it came to no pressure that a leak does not come to: not
   * broken by that. `stands`: and it has not been pumped since.
   */
  readonly unmarkedFill: 'none' | 'pumped_since' | 'stands';
  /** Fillings that came to rest and were pumped off again: they may have been breaks that nobody marked. */
  readonly restedFills: readonly RestedFill[];
  /** Valved off, and until when. */
  readonly holds: readonly { readonly fromS: number; readonly toS: number }[];
}

/** So many samples have to be as deep: one alone may be a spike. */
const RUN = 5;
/** Hands mark a break a little early or late; the pressure before it is taken from here to there. Settings of ours. */
const BEFORE_S = 75;
const NEAR_S = 15;
const SAME_S = 60;

/** Nobody breaks a vacuum to less; a gross leak is seen long before it comes so far. A setting of ours. */
const LEAST_UNMARKED_PA = STANDARD_ATMOSPHERE_PA / 2;

/** Air let in by opening the system undoes what was before: it begins anew there. */
export function evacuationCycles(
  history: History,
  stages: readonly Stage[],
  nowS: number,
): Cycle[] {
  const cycles: Cycle[] = [];
  let fromS: number | null = null;
  let depthFromS = 0;
  let filledS = -Infinity;
  let unmarkedFill: Cycle['unmarkedFill'] = 'none';
  let restedFills: RestedFill[] = [];
  let holds: { fromS: number; toS: number }[] = [];
  const askAbout = (atS: number, untilS: number): void => {
    const span = { fromS: atS, toS: untilS };
    const restPa = keptRests(history, [], span, () => restsAt(history, atS, untilS));
    if (restPa !== null) restedFills.push({ atS, restPa });
  };
  const begin = (sinceS: number, isPumped: boolean): void => {
    const isAnew = isPumped && unmarkedFill === 'stands';
    if (fromS === null || isAnew) {
      // What was reached and held before it was filled, with whatever, is undone.
      depthFromS = sinceS;
      holds = [];
    }
    fromS ??= sinceS;
    if (!isAnew) return;
    unmarkedFill = 'pumped_since';
    askAbout(filledS, sinceS);
    filledS = -Infinity;
  };
  const fill = (sinceS: number): void => {
    if (fromS === null) return;
    unmarkedFill = 'stands';
    filledS = sinceS;
  };
  const close = (toS: number, isBroken: boolean, brokenToPa: number | null): void => {
    if (fromS === null) return;
    const seen = { fromS: depthFromS, toS };
    cycles.push({
      fromS,
      toS,
      ...(isBroken
        ? keptLevels(history, [], seen, () => levelsOf(history, seen, BEFORE_S, NEAR_S))
        : levelsOf(history, seen, NEAR_S, 0)),
      isBroken,
      brokenToPa,
      unmarkedFill,
      restedFills,
      holds,
    });
    fromS = null;
    unmarkedFill = 'none';
    restedFills = [];
    holds = [];
  };
  for (const [at, { name, sinceS, recognisedBy, alternatives }] of stages.entries()) {
    const untilS = stages[at + 1]?.sinceS ?? nowS;
    switch (name) {
      case 'waiting':
        break;
      case 'pump_stopped':
        // As it looks where nobody marked the valve-off before it either; while it stands it may be going on.
        if (alternatives.includes('nitrogen_break') && untilS < nowS) askAbout(sinceS, untilS);
        break;
      case 'pull_down':
      case 'at_depth':
        begin(sinceS, true);
        break;
      case 'rise':
        begin(sinceS, false);
        holds.push({ fromS: sinceS, toS: untilS });
        break;
      case 'nitrogen_break':
        if (recognisedBy === 'mark' && sinceS - filledS < SAME_S) {
          // Marked a little late: the same one.
          unmarkedFill = 'none';
          close(filledS, true, filledIn(history, sinceS, untilS).toPa);
        } else if (
          recognisedBy === 'mark' ||
          (filledIn(history, sinceS, untilS).highestPa ?? 0) >= LEAST_UNMARKED_PA
        ) {
          close(sinceS, true, filledIn(history, sinceS, untilS).toPa);
        } else {
          fill(sinceS);
        }
        break;
      case 'vented':
        fromS = null;
        unmarkedFill = 'none';
        restedFills = [];
        holds = [];
        cycles.length = 0;
        break;
    }
  }
  close(nowS, false, null);
  return cycles;
}

/** A leak goes on rising; what was let in stays where the valve was shut. Settings of ours. */
const LEAST_REST_S = 40;
const AT_REST = 0.02;
/** Nobody breaks a vacuum to less: a valve that is shut comes to rest as well. A setting of ours. */
const LEAST_REST_PA = 2000;

const keptRests = keptPast<number | null>();

/** Where a filling stood before it was pumped off, if it stood still in the second half of the time. */
function restsAt(history: History, fromS: number, toS: number): number | null {
  if (toS - fromS < LEAST_REST_S) return null;
  const samples = samplesFromBins(history.bins(fromS, toS));
  const halfS = (fromS + toS) / 2;
  const half = levelIn(samples, halfS - NEAR_S / 2, halfS + NEAR_S / 2);
  const end = levelIn(samples, toS - NEAR_S, toS - NEAR_S / 3);
  if (half === null || end === null || end < LEAST_REST_PA) return null;
  if (Math.abs(end / half - 1) > AT_REST) return null;
  return end;
}

const keptLevels = keptPast<Pick<Cycle, 'depthPa' | 'endPa'>>();

function levelsOf(
  history: History,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
  fromBeforeS: number,
  toBeforeS: number,
): Pick<Cycle, 'depthPa' | 'endPa'> {
  const samples = samplesFromBins(history.bins(fromS, toS));
  const endPa = levelIn(samples, toS - fromBeforeS, toS - toBeforeS);
  return { depthPa: deepest(samples), endPa };
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

interface Filled {
  /** As far as the sensor's range reaches. */
  readonly highestPa: number | null;
  /** Null where it left that. */
  readonly toPa: number | null;
}
const keptFilled = keptPast<Filled>();

function filledIn(history: History, fromS: number, toS: number): Filled {
  return keptFilled(history, [], { fromS, toS }, () => {
    const bins = history.bins(fromS, toS);
    const highestPa = highestOf(samplesFromBins(bins));
    const isOver = bins.some(({ pressurePa, overRange }) => pressurePa === null || overRange > 0);
    return { highestPa, toPa: isOver ? null : highestPa };
  });
}

/** That lasted for some readings. */
function highestOf(samples: readonly Sample[]): number | null {
  const falling = samples.map(({ pressurePa }) => pressurePa).sort((a, b) => b - a);
  return falling.length < RUN ? null : median(falling.slice(0, RUN));
}
