/** The job sheet as it is typed, and as it is kept. */
import { expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { sheetFromTexts, textsFromSheet } from '../../../web/sheet/sheet-form.ts';

const MICRON = { pressure: 'micron', temperature: '°C' } as const;
const before = textsFromSheet(DEFAULT_SHEET, MICRON);

test('numbers stand in the unit of choice, unknown ones are empty', () => {
  expect(before).toMatchObject({
    targetPa: '500',
    holdS: '15',
    leakLimitPaPerS: '5',
    volumeM3: '',
  });
  const fahrenheit = textsFromSheet(
    { ...DEFAULT_SHEET, metalTemperatureC: 20 },
    { pressure: 'mbar', temperature: '°F' },
  );
  expect(fahrenheit).toMatchObject({ targetPa: '0.666612', metalTemperatureC: '68' });
});

test('only what was changed is entered', () => {
  const read = sheetFromTexts({ ...before, targetPa: '400', volumeM3: '3,5' }, before, MICRON);
  expect(read).toEqual({ ok: true, fields: { targetPa: paFromMicron(400), volumeM3: 0.0035 } });
  expect(sheetFromTexts(before, before, MICRON)).toEqual({ ok: true, fields: {} });
});

test('a known value can be made unknown again', () => {
  const known = { ...before, volumeM3: '3' };
  expect(sheetFromTexts({ ...known, volumeM3: '' }, known, MICRON)).toEqual({
    ok: true,
    fields: { volumeM3: null },
  });
});

test.each([
  ['targetPa', 'deep'],
  ['targetPa', '-5'],
  ['targetPa', ''],
  ['holdS', '0'],
  ['coldestTemperatureC', '900'],
] as const)('%s can’t be "%s"', (field, text) => {
  expect(sheetFromTexts({ ...before, [field]: text }, before, MICRON)).toEqual({
    ok: false,
    field,
  });
});
