/**
 * Gradient-boosted trees, of two levels each (Friedman, Greedy function approximation: a
 * gradient boosting machine, Annals of Statistics 29, 2001, 1189): small, and good enough to show what
 * features tell.
 */

import { median } from '../../../web/analysis/fitting/median.ts';

const TREES = 200;
const RATE = 0.1;
const BINS = 24;
/** A leaf's least number of rows, and the weight that pulls its answer to zero. */
const LEAST_ROWS = 40;
const RIDGE = 2;
/** Answers this far off, ln, pull no harder than others. */
const HUBER = 0.2;

type Features = readonly number[];
type Score = (features: Features) => number;

interface Split {
  readonly feature: number;
  readonly at: number;
  readonly gain: number;
}

/** @returns log odds of yes */
export function boost(rows: readonly Features[], answers: readonly boolean[]): Score {
  const edges = edgesOf(rows);
  const scores = new Float64Array(rows.length);
  const trees: Score[] = [];
  for (let t = 0; t < TREES; t += 1) {
    const chances = scores.map((score) => 1 / (1 + Math.exp(-score)));
    const slopes = chances.map((chance, i) => Number(answers[i]) - chance);
    const tree = grow(
      rows,
      rows.map((_, i) => i),
      { slopes, bends: chances.map((chance) => chance * (1 - chance)) },
      edges,
      2,
    );
    trees.push(tree);
    for (const [i, row] of rows.entries()) scores[i] = (scores[i] ?? 0) + RATE * tree(row);
  }
  return (features) => trees.reduce((sum, tree) => sum + RATE * tree(features), 0);
}

/** @returns about the median of the answer, given the features: trees on the signs of what is left */
export function boostMedian(rows: readonly Features[], answers: readonly number[]): Score {
  const edges = edgesOf(rows);
  const all = rows.map((_, i) => i);
  const start = median(answers);
  const scores = new Float64Array(rows.length).fill(start);
  const trees: Score[] = [];
  for (let t = 0; t < 2 * TREES; t += 1) {
    // Huber's loss: as square error near zero, as absolute error beyond.
    const slopes = scores.map((score, i) => {
      const left = (answers[i] ?? 0) - score;
      return Math.max(-HUBER, Math.min(HUBER, left));
    });
    const bends = slopes.map((slope) => (Math.abs(slope) < HUBER ? 1 : 0.3));
    const tree = grow(rows, all, { slopes, bends }, edges, 2);
    trees.push(tree);
    for (const [i, row] of rows.entries()) scores[i] = (scores[i] ?? 0) + RATE * tree(row);
  }
  return (features) => trees.reduce((sum, tree) => sum + RATE * tree(features), start);
}

interface Loss {
  readonly slopes: Float64Array;
  readonly bends: Float64Array;
}

function grow(
  rows: readonly Features[],
  inside: readonly number[],
  loss: Loss,
  edges: readonly Features[],
  depth: number,
): Score {
  const split = depth === 0 ? null : bestSplit(rows, inside, loss, edges);
  if (split === null) {
    const [slope, bend] = sums(inside, loss);
    const answer = slope / (bend + RIDGE);
    return () => answer;
  }
  const { feature, at } = split;
  const isLow = (features: Features) => (features[feature] ?? 0) <= at;
  const [low, high] = [true, false].map((side) => {
    const part = inside.filter((i) => isLow(rows[i] ?? []) === side);
    return grow(rows, part, loss, edges, depth - 1);
  });
  return (features) => (isLow(features) ? low?.(features) : high?.(features)) ?? 0;
}

function bestSplit(
  rows: readonly Features[],
  inside: readonly number[],
  loss: Loss,
  edges: readonly Features[],
): Split | null {
  const [slope, bend] = sums(inside, loss);
  let best: Split | null = null;
  for (const [feature, cuts] of edges.entries()) {
    const bins = Array.from({ length: cuts.length + 1 }, (): [number, number, number] => [0, 0, 0]);
    for (const i of inside) {
      const value = rows[i]?.[feature] ?? 0;
      const place = cuts.findIndex((cut) => value <= cut);
      const bin = bins[place === -1 ? cuts.length : place];
      if (!bin) continue;
      bin[0] += loss.slopes[i] ?? 0;
      bin[1] += loss.bends[i] ?? 0;
      bin[2] += 1;
    }
    let [lowSlope, lowBend, count] = [0, 0, 0];
    for (const [k, at] of cuts.entries()) {
      const [binSlope, binBend, binCount] = bins[k] ?? [0, 0, 0];
      lowSlope += binSlope;
      lowBend += binBend;
      count += binCount;
      if (count < LEAST_ROWS || inside.length - count < LEAST_ROWS) continue;
      const gain =
        lowSlope ** 2 / (lowBend + RIDGE) +
        (slope - lowSlope) ** 2 / (bend - lowBend + RIDGE) -
        slope ** 2 / (bend + RIDGE);
      if (gain > (best?.gain ?? 1e-9)) best = { feature, at, gain };
    }
  }
  return best;
}

function sums(inside: readonly number[], { slopes, bends }: Loss): [number, number] {
  let [slope, bend] = [0, 0];
  for (const i of inside) {
    slope += slopes[i] ?? 0;
    bend += bends[i] ?? 0;
  }
  return [slope, bend];
}

/** Quantiles of each feature. */
function edgesOf(rows: readonly Features[]): Features[] {
  const count = rows[0]?.length ?? 0;
  return Array.from({ length: count }, (_, feature) => {
    const values = rows.map((row) => row[feature] ?? 0).sort((a, b) => a - b);
    const cuts = Array.from(
      { length: BINS - 1 },
      (_, k) => values[Math.floor(((k + 1) / BINS) * values.length)] ?? 0,
    );
    return [...new Set(cuts)];
  });
}
