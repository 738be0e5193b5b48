/** The mixtures of time constants that a rise may be made of, and how often each is met. */
import { rarity, type Shape } from './rise-shapes.ts';

/** Most amounts in one mixture. */
export const MOST_AMOUNTS = 3;

export interface Mixture {
  /** Places of its shapes. */
  readonly members: readonly number[];
  /** ln of its prior, and of the density of its amounts at nothing. */
  readonly logPrior: number;
}

/** The prior of a mixture of so many: an amount more has to earn its place. A setting of ours. */
const PRIOR_BY_SIZE = [0.2, 0.35, 0.28, 0.17] as const;

/**
 * @param amountScalePa amounts are expected to be about so large: density e^(−u/scale)/scale
 */
export function mixturesOf(
  shapes: readonly Shape[],
  lengthS: number,
  amountScalePa: number,
): Mixture[] {
  const rarities = shapes.map((shape) => (shape.kind === 'release' ? rarity(shape, lengthS) : 0));
  const total = rarities.reduce((sum, one) => sum + one, 0);
  const logs = rarities.map((one) => Math.log(one / total));
  return setsOf(shapes.length - 1).map((members) => {
    const size = members.length;
    let logPrior = Math.log(PRIOR_BY_SIZE[size] ?? 1) - size * Math.log(amountScalePa);
    for (const [i, member] of members.entries()) {
      // Whichever comes first: size! orders of the same members.
      logPrior += (logs[member] ?? 0) + Math.log(i + 1);
    }
    return { members, logPrior };
  });
}

const known = new Map<number, readonly (readonly number[])[]>();

/** All sets of up to three of the places 1 to `count`. */
function setsOf(count: number): readonly (readonly number[])[] {
  const found = known.get(count);
  if (found) return found;
  const sets: number[][] = [[]];
  for (let a = 1; a <= count; a += 1) {
    sets.push([a]);
    for (let b = a + 1; b <= count; b += 1) {
      sets.push([a, b]);
      for (let c = b + 1; c <= count; c += 1) sets.push([a, b, c]);
    }
  }
  known.set(count, sets);
  return sets;
}
