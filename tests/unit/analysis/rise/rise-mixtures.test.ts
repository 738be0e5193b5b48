/** Which mixtures of time constants are tried, how likely each is beforehand, and at which inflows. */
import { leakTold } from '../../../../web/analysis/rise/leak-told.ts';
import { releasesUsed } from '../../../../web/analysis/rise/releases-used.ts';
import type { Design } from '../../../../web/analysis/rise/rise-design.ts';
import { MixtureVisitor } from '../../../../web/analysis/rise/rise-likelihood.ts';
import { mixturesOf } from '../../../../web/analysis/rise/rise-mixtures.ts';
import { findMixtures } from '../../../../web/analysis/rise/rise-search.ts';
import type { Shape } from '../../../../web/analysis/rise/rise-shapes.ts';
import { describe, expect, test } from 'vitest';

const TAUS_S = [20, 40, 80, 160, 320, 640, 1280, 2560];
const SIZE = TAUS_S.length + 1;
const AMOUNT_PA = 5;

/** Releases that have nothing in common; those with a moment above zero are in use. */
function designWith(used: readonly number[], leak = 0): Design {
  const shapes: Shape[] = [
    { kind: 'leak', tauS: 0 },
    ...TAUS_S.map((tauS): Shape => ({ kind: 'release', tauS })),
  ];
  const gram = new Float64Array(SIZE * SIZE);
  for (let i = 0; i < SIZE; i += 1) gram[i * SIZE + i] = i === 0 ? 4e4 : 4;
  const moments = Float64Array.from({ length: SIZE }, (_, i) => (used.includes(i) ? 20 : -1));
  moments[0] = 4e4 * leak;
  const none = new Float64Array(SIZE);
  return {
    ...{ shapes, lengthS: 600, size: SIZE, gram, moments, total: 400, logDeterminant: 0 },
    ...{ amountScalePa: AMOUNT_PA, startOffsetPa: 20, startPer: none, endOffsetPa: 30 },
    ...{ endPerAmount: none, endVariance: 0.04, levelledPerAmount: none },
  };
}

/** A function of a mixture, without the density of its amounts: ∏ 1/scale. */
const priorOf = ({ members, logPrior }: ReturnType<typeof mixturesOf>[number]) =>
  Math.exp(logPrior + members.length * Math.log(AMOUNT_PA));

describe('the mixtures', () => {
  test('have every second release, and each beside one that is in use', () => {
    const triedOf = (used: readonly number[]) => [
      ...new Set(mixturesOf(designWith(used)).flatMap(({ members }) => members)),
    ];
    expect(releasesUsed(designWith([4]), true).map(({ place }) => place)).toEqual([4]);
    expect(triedOf([]).sort()).toEqual([1, 3, 5, 7]);
    expect(triedOf([4]).sort()).toEqual([1, 3, 4, 5, 7]);
    expect(triedOf([5]).sort()).toEqual([1, 3, 4, 5, 6, 7]);
    expect(triedOf([1, 8]).sort()).toEqual([1, 2, 3, 5, 7, 8]);
  });

  test('are all sets of none to three of them, each once', () => {
    const sets = mixturesOf(designWith([4])).map(({ members }) => members.join());
    // 1 + 5 + 10 + 10 of five.
    expect(sets).toHaveLength(26);
    expect(new Set(sets).size).toBe(26);
    expect(sets).toContain('');
    expect(sets).toContain('3,4,5');
    expect(sets).toContain('1,7');
    for (const { members } of mixturesOf(designWith([4])))
      expect([...members].sort((a, b) => a - b)).toEqual(members);
  });

  test('are the same again after those of another design', () => {
    const before = mixturesOf(designWith([4]));
    const other = mixturesOf(designWith([8]));
    expect(other).not.toEqual(before);
    expect(mixturesOf(designWith([4]))).toEqual(before);
  });

  test('of one release are together a third as likely as all', () => {
    for (const used of [[], [4], [1, 8]]) {
      const mixtures = mixturesOf(designWith(used));
      const sum = (count: number) =>
        mixtures
          .filter(({ members }) => members.length === count)
          .reduce((total, mixture) => total + priorOf(mixture), 0);
      expect(sum(0)).toBeCloseTo(0.2, 9);
      expect(sum(1)).toBeCloseTo(0.35, 9);
      // Of two draws that are not twice the same.
      const shares = mixtures.filter(({ members }) => members.length === 1).map(priorOf);
      const twice = shares.reduce((total, share) => total + (share / 0.35) ** 2, 0);
      expect(sum(2)).toBeCloseTo(0.28 * (1 - twice), 9);
      expect(sum(3)).toBeLessThan(0.17);
    }
  });

  test('of two and three are as likely as their members drawn in any order', () => {
    const mixtures = mixturesOf(designWith([4]));
    const prior = (...members: readonly number[]) => {
      const found = mixtures.find((each) => each.members.join() === members.join());
      return found === undefined ? NaN : priorOf(found);
    };
    const share = (place: number) => prior(place) / 0.35;
    expect(prior(1, 4)).toBeCloseTo(0.28 * 2 * share(1) * share(4), 12);
    expect(prior(3, 4, 7)).toBeCloseTo(0.17 * 6 * share(3) * share(4) * share(7), 12);
  });

  test('that take longer than a quarter of an hour are the rarer, and those that lie closer', () => {
    const singles = new Map(
      mixturesOf(designWith([5])).flatMap((mixture) => {
        const [only, ...more] = mixture.members;
        return only === undefined || more.length > 0 ? [] : [[only, priorOf(mixture)] as const];
      }),
    );
    const share = (place: number) => singles.get(place) ?? NaN;
    // 1, 3, 4, 5, 6, 7: half as wide where the grid is as fine as it is.
    expect(share(4) / share(5)).toBeCloseTo(1, 9);
    expect(share(3) / share(4)).toBeCloseTo(1.5, 9);
    expect(share(1) / share(4)).toBeCloseTo(2, 9);
    expect(share(7) / share(6)).toBeCloseTo(1.5 * (900 / 1280), 9);
  });
});

describe('the inflows at which they are weighed', () => {
  const design = designWith([4], 0.02);
  const found = (earlier: Parameters<typeof findMixtures>[4] = []) =>
    findMixtures(new MixtureVisitor(design), design, 0.02, 0.011, earlier);

  test('go from none on, close where the inflow is, and as far as it may reach', () => {
    const { nodes, candidates, highest } = found();
    expect(nodes[0]).toBe(0);
    expect(nodes).toEqual([...nodes].sort((a, b) => a - b));
    expect(new Set(nodes).size).toBe(nodes.length);
    // The readings tell it to 1/√4e4.
    expect(nodes.at(-1)).toBeGreaterThan(0.02 + 3 * 0.005);
    expect(nodes.at(-1)).toBeLessThan(0.02 + 12 * 0.005);
    expect(nodes.filter((leak) => Math.abs(leak - 0.02) < 0.005).length).toBeGreaterThan(4);
    expect(Math.max(...candidates.map(({ peak }) => peak))).toBe(highest);
    expect(candidates[0]?.mixture.members).toContain(4);
    for (const { at } of candidates.slice(0, 3)) expect(Math.abs(at - 0.02)).toBeLessThan(0.011);
  });

  test('are also those of earlier holds, some of them and no further', () => {
    const alone = found().nodes;
    const most = alone.at(-1) ?? NaN;
    const leaks = Array.from({ length: 121 }, (_, n) => n * 0.001);
    const told = leakTold(
      leaks,
      Float64Array.from(leaks, () => 1),
      leaks.map(() => 1 / 121),
      1000,
    );
    const { nodes } = found([told]);
    expect(nodes.at(-1)).toBe(most);
    expect(nodes).toEqual([...nodes].sort((a, b) => a - b));
    for (const leak of alone) expect(nodes).toContain(leak);
    const added = nodes.filter((leak) => !alone.includes(leak));
    for (const leak of added) expect(leaks).toContain(leak);
    expect(added.length).toBeGreaterThan(7);
    expect(added.length).toBeLessThanOrEqual(14);
    // They lie as far apart from the first to the last.
    const within = leaks.filter((leak) => leak > 0 && leak < most);
    expect(added[0]).toBe(within[0]);
    expect(added.at(-1)).toBeGreaterThan((within.at(-1) ?? NaN) - 0.006);
    const twice = found([told, told]).nodes;
    expect(twice).toEqual(nodes);
  });
});
