/** A pump's displacement in the units that stand on pumps. */
import { expect, test } from 'vitest';
import { unusualIn } from '../../../web/sheet/usual-figures.ts';
import { displacementFrom, displacementParts } from '../../../web/sheet/displacement.ts';

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

test('what is typed is parted into figure and unit', () => {
  expect(displacementParts('4 cfm')).toEqual({ figure: '4', unit: 'cfm' });
  expect(displacementParts('6,8 m³/h')).toEqual({ figure: '6,8', unit: 'm³/h' });
  expect(displacementParts('113')).toBeNull();
});

test.each([
  ['6', false],
  ['15', true],
  ['1000', true],
  ['1001', false],
  ['6 cfm', true],
  ['113 cfm', false],
])('%s of a pump is usual: %s', (text, isUsual) => {
  const pumpDisplacementM3PerS = displacementFrom(text);
  expect(unusualIn({ pumpDisplacementM3PerS }) === null).toBe(isUsual);
});

test('any other figure far from usual is found as well, and what is not known is none', () => {
  expect(unusualIn({ hoseLengthM: 1.2, volumeM3: null, site: 'Shop' })).toBeNull();
  // 75 °F where degrees Celsius are asked for.
  expect(unusualIn({ hoseLengthM: 1.2, ambientTemperatureC: 75 })).toMatchObject({
    field: 'ambientTemperatureC',
    value: 75,
  });
});
