/** What is said of a nitrogen test's grounds. */
import { expect, test } from 'vitest';
import { gaugeFromUnit } from '../../../protocol/gauge-pressure.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { nitrogenTest } from '../../../web/analysis/nitrogen-test.ts';
import { sayNitrogenGrounds } from '../../../web/words/say-nitrogen.ts';
import { MICRON } from '../../support/english-speech.ts';

function grounds(laterC: number): string {
  const readings = [0, 3_600_000].map((atMs) => ({
    atMs,
    pressure: gaugeFromUnit(41, 'bar'),
    temperatureC: atMs === 0 ? 21 : laterC,
    step: 1,
    justFilled: false,
    note: '',
  }));
  const [tested] = nitrogenTest(readings, DEFAULT_SHEET.nitrogenGauge, DEFAULT_SHEET);
  if (tested?.kind !== 'compared') throw new Error('there are two readings');
  return sayNitrogenGrounds(tested, 'bar', MICRON).join(' ');
}

test('of the gas itself nothing is said where the metal is as warm as at the start', () => {
  expect(grounds(21)).not.toContain('Temperature alone');
  // 42 bar (absolute), 2 K of 294: 0.29 bar of the ideal gas, and a little more of nitrogen.
  expect(grounds(23)).toMatch(/Temperature alone changes it by 0\.(29|3\d*) bar/u);
});
