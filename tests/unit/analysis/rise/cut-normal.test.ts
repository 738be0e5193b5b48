/** Integrals over amounts that may not be negative: one after another, and each as if it were the first. */
import { CutNormal } from '../../../../web/analysis/rise/cut-normal.ts';
import { MOST_AMOUNTS } from '../../../../web/analysis/rise/rise-mixtures.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const anyPull = fc.array(fc.double({ min: -6, max: 6, noNaN: true }), {
  minLength: MOST_AMOUNTS,
  maxLength: MOST_AMOUNTS,
});
/** How much each two amounts have in common; they stay well apart. */
const anyShared = fc.double({ min: -0.3, max: 0.3, noNaN: true });

function take(normal: CutNormal, count: number, shared: number): CutNormal {
  for (let a = 0; a < count; a += 1) {
    for (let b = 0; b < count; b += 1) {
      normal.precision[a * MOST_AMOUNTS + b] = a === b ? 1 + a : shared;
    }
  }
  normal.count = count;
  normal.uncut();
  return normal;
}

function integral(normal: CutNormal, pull: readonly number[]) {
  normal.pull.set(pull);
  const log = normal.integrate();
  return { log, means: [...normal.means], covariance: [...normal.covariance] };
}

test('another pull is integrated as if the matrix were inverted anew', () => {
  fc.assert(
    fc.property(anyPull, anyPull, anyShared, (first, second, shared) => {
      const [kept, anew] = [0, 1].map(() => take(new CutNormal(), MOST_AMOUNTS, shared));
      if (!kept || !anew) throw new Error('there are two');
      expect(integral(kept, first)).toEqual(integral(anew, first));
      anew.invert();
      expect(integral(kept, second)).toEqual(integral(anew, second));
    }),
  );
});

test('other amounts, or none known, leave nothing of those before', () => {
  fc.assert(
    fc.property(anyPull, anyPull, anyShared, anyShared, (first, second, one, other) => {
      const used = take(new CutNormal(), MOST_AMOUNTS, one);
      integral(used, first);
      take(used, MOST_AMOUNTS, other);
      const expected = integral(take(new CutNormal(), MOST_AMOUNTS, other), second);
      expect(integral(used, second)).toEqual(expected);
      used.clear();
      expect(integral(used, second)).toEqual(expected);
    }),
  );
});

test('amounts that have nothing in common are integrated one by one', () => {
  fc.assert(
    fc.property(anyPull, (pull) => {
      const { log, means } = integral(take(new CutNormal(), 2, 0), pull);
      let sum = 0;
      for (const a of [0, 1]) {
        const alone = take(new CutNormal(), 1, 0);
        alone.precision[0] = 1 + a;
        const one = integral(alone, [pull[a] ?? 0]);
        sum += one.log;
        expect(means[a]).toBeCloseTo(one.means[0] ?? NaN, 6);
      }
      expect(log).toBeCloseTo(sum, 6);
    }),
  );
});
