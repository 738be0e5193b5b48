/** Deviations, the pump check, and what was entered of a system, as a person reads them. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { sayDeviation, sayPumpShouldReach } from '../../../web/words/say-plan.ts';
import { sayShortTime } from '../../../web/words/say-rig.ts';
import { saySheetValue } from '../../../web/words/say-sheet-value.ts';
import { MICRON } from '../../support/english-speech.ts';

describe('deviations', () => {
  test('each is said with its interval', () => {
    const factor = { low: 1.84, estimate: 3, high: 4.61 };
    expect(sayDeviation({ kind: 'slower', factor }, 0, MICRON)).toMatch(
      /between 1\.8 and 4\.6 times/u,
    );
    const plateau = { kind: 'plateau', pressurePa: paFromMicron(4200), sinceS: 100 } as const;
    expect(sayDeviation(plateau, 700, MICRON)).toMatch(/at 4200 micron .* for 10 min/u);
    const floorPa = {
      low: paFromMicron(800),
      estimate: paFromMicron(900),
      high: paFromMicron(1000),
    };
    const still = { ...plateau, kind: 'standstill' } as const;
    expect(sayDeviation(still, 700, MICRON)).toMatch(/near 4200 micron for 10 min/u);
    expect(sayDeviation({ kind: 'floor', floorPa }, 0, MICRON)).toMatch(
      /about 900 micron, between 800 and 1000/u,
    );
  });
});

test('what a pump should reach is its own figure, or the usual one without a source', () => {
  expect(sayPumpShouldReach(paFromMicron(25), paFromMicron(50), MICRON)).toMatch(
    /^25 micron, as entered; up to 50 micron is good/u,
  );
  expect(sayPumpShouldReach(null, paFromMicron(100), MICRON)).toMatch(/^100 micron .*no source/u);
});

test('times that are compared are finer than estimates', () => {
  expect(sayShortTime(98, MICRON)).toBe('1 min 40 s');
  expect(sayShortTime(3000, MICRON)).toBe('50 min');
  expect(sayShortTime(null, MICRON)).toBe('not within 8 hours');
});

test('what was entered of a system is listed', () => {
  const sheet = {
    ...DEFAULT_SHEET,
    tubes: [
      { role: 'gas', outerDiameterM: 0.009525, wallM: 0.000813, lengthM: 5, section: 'lines' },
    ],
    vessels: [
      { kind: 'receiver', size: { by: 'charge', chargeKg: 3, refrigerant: 'R-32' }, section: '' },
      { kind: 'indoor_coil', size: { by: 'usual' }, section: '' },
    ],
    sections: [
      { name: 'lines', volumeM3: null, hoseHere: true },
      { name: 'outdoor', volumeM3: 0.004, hoseHere: false },
    ],
    joins: [{ kind: 'service_valve', between: ['lines', 'outdoor'], state: 'closed' }],
  } satisfies typeof DEFAULT_SHEET;
  const said = (field: 'tubes' | 'vessels' | 'sections' | 'joins') =>
    saySheetValue(sheet, field, MICRON);
  expect(said('tubes')).toBe('gas 9.53 × 0.813 mm, 5.00 m (lines)');
  expect(said('vessels')).toBe('receiver, made for 3.00 kg of R-32; indoor coil, as is usual');
  expect(said('sections')).toBe('lines, hose here; outdoor 4.00 L');
  expect(said('joins')).toBe('service valve between lines and outdoor: closed');
  expect(saySheetValue(DEFAULT_SHEET, 'tubes', MICRON)).toBe('not entered');
});
