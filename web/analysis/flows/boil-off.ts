/** The plateau on which water boiled, once it is over. */
import { median } from '../fitting/median.ts';
import { boilOffEvidence } from '../pull-down/plateau.ts';
import type { History } from '../readings/history.ts';
import { samplesFromBins, type Sample } from '../readings/samples.ts';

export interface BoilOff {
  readonly fromS: number;
  readonly toS: number;
  /** The plateau's middle. */
  readonly pressurePa: number;
  /** ∫ p dt over it. */
  readonly integralPaS: number;
}

/** A plateau shorter than this is none. A setting of ours. */
const LEAST_PLATEAU_S = 60;
/** Its slope is taken between medians of so long … */
const BLOCK_S = 30;
/** … and not across a silence: neighbours of neighbours are two such lengths apart. */
const MOST_APART_S = 5 * BLOCK_S;
/** Evidence for boiling from here on. */
const BOILING_FROM = 0.5;
/** It is over once so many samples lay below this part of it: until then it may be a floor. */
const OVER_SHARE = 0.75;
const LEAST_BELOW = 3;

/**
 * The longest plateau of a pull-down on which water seems to have boiled; null without one, and before
 * the pressure has fallen off it: a leak or a pump's own floor look the same until then.
 * @param pulled from pump on to isolation, or to now
 */
export function boilOff(
  history: History,
  pulled: { readonly fromS: number; readonly toS: number },
): BoilOff | null {
  const samples = samplesFromBins(history.bins(pulled.fromS, pulled.toS));
  const run = longestRun(blocksOf(samples));
  if (run === null || run.toS - run.fromS < LEAST_PLATEAU_S) return null;
  const { fromS, toS } = run;
  const stretch = samples.filter(({ elapsedS }) => elapsedS >= fromS && elapsedS <= toS);
  const pressurePa = median(stretch.map((sample) => sample.pressurePa));
  const below = samples.filter(
    (sample) => sample.elapsedS > toS && sample.pressurePa < OVER_SHARE * pressurePa,
  );
  if (below.length < LEAST_BELOW) return null;
  const integralPaS = stretch.slice(1).reduce((sum, sample, i) => {
    const before = stretch[i] ?? sample;
    const meanPa = (sample.pressurePa + before.pressurePa) / 2;
    return sum + meanPa * (sample.elapsedS - before.elapsedS);
  }, 0);
  return { fromS, toS, pressurePa, integralPaS };
}

interface Block {
  readonly fromS: number;
  readonly toS: number;
  readonly pressurePa: number;
}

/** Half minutes of samples: noise of single readings would break every plateau to pieces. */
function blocksOf(samples: readonly Sample[]): Block[] {
  const blocks: Block[] = [];
  let group: Sample[] = [];
  const close = () => {
    const [from, to] = [group[0], group.at(-1)];
    if (!from || !to) return;
    const pressurePa = median(group.map((sample) => sample.pressurePa));
    blocks.push({ fromS: from.elapsedS, toS: to.elapsedS, pressurePa });
    group = [];
  };
  for (const sample of samples) {
    if (group[0] && sample.elapsedS - group[0].elapsedS >= BLOCK_S) close();
    group.push(sample);
  }
  close();
  return blocks;
}

/** The longest stretch of flat blocks in boiling range, a single block that is not flat forgiven. */
function longestRun(blocks: readonly Block[]): { fromS: number; toS: number } | null {
  const flat = blocks.map((_, i) => isFlat(blocks, i));
  let best: { fromS: number; toS: number } | null = null;
  let sinceS: number | null = null;
  for (const [i, block] of blocks.entries()) {
    if (flat[i] === true) {
      sinceS ??= block.fromS;
      if (best === null || block.toS - sinceS > best.toS - best.fromS) {
        best = { fromS: sinceS, toS: block.toS };
      }
    } else if (flat[i + 1] !== true || flat[i - 1] !== true) {
      sinceS = null;
    }
  }
  return best;
}

/** By the slope between the blocks on either side. */
function isFlat(blocks: readonly Block[], at: number): boolean {
  const here = blocks[at];
  if (!here) return false;
  const [from, to] = [blocks[at - 1] ?? here, blocks[at + 1] ?? here];
  const lengthS = (to.fromS + to.toS - from.fromS - from.toS) / 2;
  if (lengthS <= 0 || lengthS > MOST_APART_S) return false;
  const fallPerS = Math.log(from.pressurePa / to.pressurePa) / lengthS;
  return boilOffEvidence(here.pressurePa, fallPerS) >= BOILING_FROM;
}
