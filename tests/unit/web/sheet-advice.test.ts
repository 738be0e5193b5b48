/** What the job sheet says beside its fields: safety class, water, the air's pressure. */
import { describe, expect, test } from 'vitest';
import { isFlammable, REFRIGERANTS } from '../../../protocol/refrigerants.ts';
import { atmosphereAtHeightPa } from '../../../protocol/standard-atmosphere.ts';
import {
  sayAtmosphere,
  sayHistoryAdvice,
  sayOilAdvice,
  sayRefrigerantSafety,
} from '../../../web/words/say-sheet-advice.ts';
import { MICRON } from '../../support/english-speech.ts';

describe('the safety class', () => {
  test('stands with its meaning and its source', () => {
    const said = sayRefrigerantSafety('R-32', MICRON);
    expect(said?.safetyClass).toBe('Safety class A2L: lower toxicity, flammable, burns slowly.');
    expect(said?.source).toBe(
      'ANSI/ASHRAE Standard 34, ISO 817, as others restate it: look it up before it counts.',
    );
    expect(sayRefrigerantSafety('R-744', MICRON)?.source).toContain('from memory');
    expect(sayRefrigerantSafety('unknown', MICRON)).toBeNull();
  });

  test.each(REFRIGERANTS.map(({ number, safetyClass }) => [number, safetyClass] as const))(
    '%s, %s: cautions where it burns or poisons, and only there',
    (number, safetyClass) => {
      const cautions = sayRefrigerantSafety(number, MICRON)?.cautions.join(' ') ?? '';
      expect(cautions.includes('ignition sources')).toBe(safetyClass !== 'A1');
      expect(cautions.includes('higher toxicity')).toBe(safetyClass === 'B2L');
    },
  );

  test('those that burn are these', () => {
    const flammable = REFRIGERANTS.filter(({ safetyClass }) => isFlammable(safetyClass));
    expect(flammable.map(({ number }) => number)).toEqual([
      'R-32',
      'R-290',
      'R-454B',
      'R-454C',
      'R-600a',
      'R-717',
      'R-1234yf',
    ]);
  });
});

test('wet histories and thirsty oils are told, as practice without a source; others say nothing', () => {
  expect(sayHistoryAdvice('flooded', MICRON)).toContain('drain');
  expect(sayHistoryAdvice('new', MICRON)).toBe('');
  expect(sayOilAdvice('poe', MICRON)).toContain('takes up water');
  expect(sayOilAdvice('mineral', MICRON)).toBe('');
});

test('at altitude the air weighs less: where a gauge stands, and where water boils', () => {
  // U.S. Standard Atmosphere 1976 has 70 108.5 Pa at 3000 m of geopotential height (table, from memory);
  // water boils there at 89.9 °C by IAPWS R7-97.
  expect(Math.abs(atmosphereAtHeightPa(3000) / 70_108.5 - 1)).toBeLessThan(1e-5);
  const said = sayAtmosphere(3000, MICRON);
  expect(said).toContain('70.1 kPa');
  expect(said).toContain('−20.7 inHg or −0.70 bar');
  expect(said).toContain('boils in the open at 90 °C');
  expect(sayAtmosphere(0, MICRON)).toContain('−29.9 inHg or −1.0 bar');
  expect(sayAtmosphere(0, MICRON)).toContain('at 100 °C');
});
