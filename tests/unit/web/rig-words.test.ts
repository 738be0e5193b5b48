/** What a rig should manage, as a person reads it. */
import { expect, test } from 'vitest';
import { paFromMicron } from '../../../protocol/units.ts';
import {
  sayAssumed,
  sayExpectedRange,
  sayLimit,
  sayMissing,
  sayShare,
  saySpeed,
} from '../../../web/words/say-rig.ts';
import { MICRON } from '../../support/english-speech.ts';

test('times, speeds and shares have the digits that they deserve', () => {
  const range = { lowS: 280, estimateS: 372, highS: 465 };
  expect(sayExpectedRange(range, MICRON)).toBe('about 6 min, between 5 and 8 min');
  expect(sayExpectedRange(null, MICRON)).toBe('not within 8 hours');
  expect(saySpeed(20.63e-3 / 60, 0.113 / 60, MICRON)).toBe('20.6 of the pump’s 113 L/min');
  expect(sayShare('hose', 0.773, MICRON)).toBe('hose 77 %');
});

test('the limiting part is named with what helps', () => {
  const said = (part: Parameters<typeof sayLimit>[0]) => sayLimit(part, paFromMicron(500), MICRON);
  expect(said('core')).toMatch(/^At 500 micron the valve core .* cores out/u);
  expect(said('pump')).toMatch(/^At 500 micron the pump /u);
});

test('what is missing is asked for, and what is assumed is owned', () => {
  expect(sayMissing(['volumeM3', 'hoseBoreM'], MICRON)).toMatch(/missing: .*volume, .*bore\.$/u);
  expect(sayAssumed(['hoseCount', 'core'], MICRON)).toMatch(/one hose, cores taken out\.$/u);
});
