/** What is said of a nitrogen test's grounds. */
import { expect, test } from 'vitest';
import { gaugeFromUnit } from '../../../protocol/gauge-pressure.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { nitrogenTest } from '../../../web/analysis/nitrogen/nitrogen-test.ts';
import { sayNitrogen, sayNitrogenGrounds } from '../../../web/words/say-nitrogen.ts';
import { MICRON } from '../../support/english-speech.ts';

interface Read {
  readonly laterC?: number;
  readonly bar?: number;
  readonly laterBar?: number;
}

function tested({ laterC = 21, bar = 41, laterBar = bar }: Read) {
  const readings = [0, 3_600_000].map((atMs) => ({
    atMs,
    pressure: gaugeFromUnit(atMs === 0 ? bar : laterBar, 'bar'),
    temperatureC: atMs === 0 ? 21 : laterC,
    step: 1,
    justFilled: false,
    note: '',
  }));
  const [step] = nitrogenTest(readings, DEFAULT_SHEET.nitrogenGauge, DEFAULT_SHEET);
  if (step?.kind !== 'compared') throw new Error('there are two readings');
  return step;
}

function grounds(laterC: number): string {
  return sayNitrogenGrounds(tested({ laterC }), 'bar', MICRON).join(' ');
}

test('of the gas itself nothing is said where the metal is as warm as at the start', () => {
  expect(grounds(21)).not.toContain('Temperature alone');
  // 42 bar (absolute), 2 K of 294: 0.29 bar of the ideal gas, and a little more of nitrogen.
  expect(grounds(23)).toMatch(/Temperature alone changes it by 0\.(29|3\d*) bar/u);
});

test('undecided, and no loss seen, says first what loss there is not', () => {
  const said = (what: Read) => sayNitrogen(tested(what), 'bar', MICRON);
  const { headline, sure } = said({});
  expect(headline).toMatch(/^No loss seen; in 1 h a loss of 0\.\d+ bar an hour would have shown$/u);
  expect(sure).toBe('Undecided');
  // Some may be missing, more than there was, or nothing was tested.
  for (const what of [{ laterBar: 40.65 }, { laterBar: 43 }, { bar: 0 }]) {
    expect(said(what)).toMatchObject({ headline: 'Undecided', sure: '' });
  }
  expect(said({ laterBar: 36 }).headline).toMatch(/^Leaks/u);
});
