/** A pump's displacement in the units that stand on pumps. */
import { expect, test } from 'vitest';
import { displacementFrom } from '../../../web/sheet/displacement.ts';

test.each([
  ['113', 113 / 60_000],
  ['113 L/min', 113 / 60_000],
  ['4 cfm', (4 * 0.0283168466) / 60],
  ['4CFM', (4 * 0.0283168466) / 60],
  ['6,8 m³/h', 6.8 / 3600],
  ['6.8 m3/h', 6.8 / 3600],
  ['1.9 l / s', 1.9e-3],
])('%s', (text, m3PerS) => {
  expect((displacementFrom(text) ?? 0) / m3PerS).toBeCloseTo(1, 6);
});

test('nothing is nothing, and what is no displacement is refused', () => {
  expect(displacementFrom('  ')).toBeNull();
  for (const text of ['four', '4 hp', 'cfm', '4 cfm 5']) expect(displacementFrom(text)).toBeNaN();
});
