/** What is straight in two holds, against sums over all that it may be made of. */
import type { LeakTold } from '../../../../web/analysis/rise/leak-told.ts';
import { splitsOf } from '../../../../web/analysis/rise/slow-between-holds.ts';
import { describe, expect, test } from 'vitest';

const MIDDLE_S = 10_000;
const NODES = [0.02, 0.05, 0.08] as const;

/** A hold whose straight part was so steep, give or take. */
const told = (paPerS: number, sigmaPaPerS: number, agoS: number): LeakTold => ({
  logLikelihoodAt: (leak) => -0.5 * ((leak - paPerS) / sigmaPaPerS) ** 2,
  ...{ atPaPerS: [], priors: [], middleS: MIDDLE_S - agoS },
});
/** Of a source of half an hour to four hours beside a leak of that share, how likely the holds are. */
function likelihoodOf(straight: number, share: number, tauS: number, earlier: readonly LeakTold[]) {
  return earlier.reduce((product, { logLikelihoodAt, middleS }) => {
    const slowed = (1 - share) * Math.exp((MIDDLE_S - middleS) / tauS);
    return product * Math.exp(logLikelihoodAt(straight * (share + slowed)));
  }, 1);
}
const shares = [...Array(20).keys()].map((i) => i / 20);
const tausS = [...Array(12).keys()].map((i) => 1800 * 1.2 ** i);
const averageSlow = (straight: number, earlier: readonly LeakTold[], of = shares) => {
  const all = of.flatMap((share) =>
    tausS.map((tauS) => likelihoodOf(straight, share, tauS, earlier)),
  );
  return all.reduce((sum, one) => sum + one, 0) / all.length;
};
const leakOnly = (straight: number, earlier: readonly LeakTold[]) =>
  likelihoodOf(straight, 1, Infinity, earlier);

describe('an earlier hold that was steeper', () => {
  const earlier = [told(0.09, 0.01, 3000), told(0.07, 0.02, 1500)];

  test('leaves each share of the leak as likely as its slowing sources make the holds', () => {
    const splits = splitsOf(NODES, [0.2, 0.7, 0.1], earlier, MIDDLE_S);
    for (const [n, straight] of NODES.entries()) {
      const total = 0.8 * leakOnly(straight, earlier) + 0.2 * averageSlow(straight, earlier);
      expect(splits[n]?.logLikelihood).toBeCloseTo(Math.log(total), 9);
      const parts = splits[n]?.parts ?? [];
      expect(parts).toHaveLength(21);
      expect(parts[0]?.leakShare).toBe(1);
      expect(parts[0]?.probability).toBeCloseTo((0.8 * leakOnly(straight, earlier)) / total, 9);
      for (const [i, share] of shares.entries()) {
        const { leakShare, probability } = parts[i + 1] ?? {};
        expect(leakShare).toBeCloseTo(share, 12);
        const likely = (0.2 / 20) * averageSlow(straight, earlier, [share]);
        expect(probability).toBeCloseTo(likely / total, 9);
      }
    }
  });
});

describe('how likely a slow source is beforehand', () => {
  // The hold before was as steep as the upper node, or the lower one has slowed.
  const earlier = [told(0.08, 0.004, 3000)];
  const priorOf = (weights: readonly number[]) => {
    const [split] = splitsOf(NODES, weights, earlier, MIDDLE_S);
    const together = Math.exp(split?.logLikelihood ?? 0);
    const leak = leakOnly(NODES[0], earlier);
    return (together - leak) / (averageSlow(NODES[0], earlier) - leak);
  };

  test('goes by all sizes that the straight part may have, each by its weight', () => {
    for (const weights of [
      [0, 0, 1],
      [0, 1, 0],
      [0, 0.9, 0.1],
      [0, 0.5, 0.5],
      [0.3, 0.69, 0.01],
    ]) {
      const weigh = (likelihoodAt: (straight: number) => number) =>
        NODES.reduce((sum, node, n) => sum + (weights[n] ?? 0) * likelihoodAt(node), 0);
      const slow = weigh((node) => averageSlow(node, earlier));
      const leak = weigh((node) => leakOnly(node, earlier));
      expect(priorOf(weights), weights.join()).toBeCloseTo(slow > leak ? 0.2 : 0.05, 9);
    }
    expect(priorOf([0, 0, 1])).toBeCloseTo(0.05, 9);
    expect(priorOf([0, 1, 0])).toBeCloseTo(0.2, 9);
  });
});

test('earlier holds that are all but impossible still leave probabilities', () => {
  const far = [told(5, 0.001, 600)];
  for (const { logLikelihood, parts } of splitsOf(NODES, [1, 1, 1], far, MIDDLE_S)) {
    expect(Number.isFinite(logLikelihood)).toBe(true);
    expect(parts.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
  }
});
