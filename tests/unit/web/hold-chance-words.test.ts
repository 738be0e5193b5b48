/** The line for whoever is about to turn the valve. */
import { expect, test } from 'vitest';
import { paFromMicron } from '../../../protocol/units.ts';
import type { EarlierTold, HoldReason } from '../../../web/analysis/conclusions.ts';
import { sayHoldChance } from '../../../web/words/say-hold-chance.ts';
import { micron } from './invented-conclusions.ts';
import { MICRON } from '../../support/english-speech.ts';

const rate = ({ estimate, low, high }: ReturnType<typeof micron>) => ({
  estimate: estimate / 60,
  low: low / 60,
  high: high / 60,
});

function earlier(change: Partial<EarlierTold>): HoldReason {
  return {
    kind: 'earlier_hold',
    leaks: 0.01,
    leaksTooMuch: 0.01,
    risesTooMuch: 0.5,
    leakPaPerS: rate(micron(38, 34, 42)),
    endPa: micron(600, 560, 640),
    ...change,
  };
}

const say = (low: number, high: number, ...reasons: HoldReason[]) =>
  sayHoldChance({ low, high, reasons }, MICRON);

test('the curve alone can’t tell, and says so rather than half and half', () => {
  expect(say(0, 1, { kind: 'curve_silent' })).toBe(
    'the curve alone can’t tell whether the hold passes.',
  );
  expect(say(0, 1, { kind: 'changed_since_hold' }, { kind: 'curve_silent' })).toContain(
    'the last hold counts no more',
  );
});

test('what fails for sure says by what', () => {
  const limitPa = paFromMicron(500);
  expect(say(0, 0.02, { kind: 'stands_too_high', limitPa })).toBe(
    'the hold fails, since it starts above 500 micron.',
  );
  expect(say(0, 0.1, { kind: 'water_boils', weight: 0.9 })).toBe(
    'the hold most likely fails, since water still boils.',
  );
});

test.each<[number, number, Partial<EarlierTold>, string]>([
  [
    0,
    0.08,
    { leaks: 0.97, leaksTooMuch: 0.97, risesTooMuch: 1 },
    'the hold most likely fails: the last one showed a steady inflow, about 38 micron a minute, between 34 and 42.',
  ],
  [
    0,
    0.08,
    { leaks: 0.01, leaksTooMuch: 0.97, risesTooMuch: 1 },
    'the hold most likely fails: so little room is left below the limit.',
  ],
  [
    0.94,
    1,
    { risesTooMuch: 0 },
    'the hold most likely passes: the last one came to little, and pumping has gone on since.',
  ],
  [
    0.22,
    0.98,
    { risesTooMuch: 0.7 },
    'the hold passes with a chance of 20 % at least: the last one showed no leak, and what has dried since is not known.',
  ],
  [
    0,
    0.62,
    { leaksTooMuch: 0.4 },
    'the hold passes with a chance of 60 % at most: the last one left open whether it leaks.',
  ],
  [
    0.31,
    0.66,
    { leaksTooMuch: 0.4 },
    'the hold passes with a chance between 30 and 65 %: the last one left open whether it leaks.',
  ],
])('an earlier hold bounds it: from %d to %d', (low, high, told, words) => {
  expect(say(low, high, earlier(told))).toBe(words);
});

test('no chance is said where figures would say all or nothing', () => {
  expect(say(0.01, 0.99, earlier({}))).toBe(
    'nobody can tell whether the hold passes: the last one showed no leak, and what has dried since is not known.',
  );
});

test('what is bounded by pump and volume, and what the sensor does not see', () => {
  const most: HoldReason = { kind: 'little_inflow', mostRisePa: paFromMicron(54) };
  expect(say(0.9, 1, most)).toBe(
    'the hold most likely passes: no more than 54.0 micron can come in.',
  );
  expect(say(0, 1, { kind: 'not_the_system' })).toContain('the sensor does not see it');
});
