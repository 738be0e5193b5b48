/** The job sheet as it is typed, and as it is kept. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHEET, sheetEntrySchema, sheetFromEntries } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { sheetFromTexts, textsForRule, textsFromSheet } from '../../../web/sheet/sheet-form.ts';
import { sayWrongField } from '../../../web/words/say-sheet.ts';
import { englishIn, MICRON } from '../../support/english-speech.ts';

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
    englishIn({ pressure: 'mbar', temperature: '°F' }),
  );
  expect(fahrenheit).toMatchObject({ targetPa: '0.666612', metalTemperatureC: '68' });
});

test('only what was changed is entered', () => {
  const read = sheetFromTexts(
    { ...before, targetPa: '400', volumeM3: '3,5' },
    before,
    MICRON.units,
  );
  expect(read).toEqual({ ok: true, fields: { targetPa: paFromMicron(400), volumeM3: 0.0035 } });
  expect(sheetFromTexts(before, before, MICRON.units)).toEqual({ ok: true, fields: {} });
});

test.each(['targetPa', 'isolateAtPa', 'endLimitPa', 'allowedRisePa', 'pumpUltimatePa'] as const)(
  '%s: what may be a thousand and a half or one and a half is refused, and named',
  (field) => {
    for (const text of ['1,500', ' 1.500 ', '20.000']) {
      const read = sheetFromTexts({ ...before, [field]: text }, before, MICRON.units);
      expect(read).toEqual({ ok: false, field, mistakable: true });
    }
    const inMbar = englishIn({ pressure: 'mbar' });
    const empty = textsFromSheet(DEFAULT_SHEET, inMbar);
    const read = sheetFromTexts({ ...empty, [field]: '1.500' }, empty, inMbar.units);
    expect(read).toEqual({ ok: true, fields: { [field]: 150 } });
  },
);

test('a leak that is too great by a thousand or not is refused as well, a word is just no number', () => {
  const leak = { ...before, leakLimitPaPerS: '5.000' };
  expect(sheetFromTexts(leak, before, MICRON.units)).toMatchObject({ mistakable: true });
  const deep = { ...before, targetPa: 'deep' };
  expect(sheetFromTexts(deep, before, MICRON.units)).toMatchObject({ mistakable: false });
  const spaced = sheetFromTexts({ ...before, targetPa: '1 500' }, before, MICRON.units);
  expect(spaced).toEqual({ ok: true, fields: { targetPa: paFromMicron(1500) } });
});

test('one is told how to write the one that is meant', () => {
  const said = sayWrongField('targetPa', '1,500', MICRON);
  expect(said).toMatch(/^Target.*“1,500” may be 1500 or 1\.5/u);
});

test('what the form itself fills in never looks like thousands', () => {
  // 1000 micron are 133.322 Pa to six digits.
  const inPa = englishIn({ pressure: 'Pa' });
  const sheet = { ...DEFAULT_SHEET, targetPa: paFromMicron(1000) };
  const texts = textsFromSheet(sheet, inPa);
  expect(texts.targetPa).toBe('133.3220');
  const other = textsFromSheet(DEFAULT_SHEET, inPa);
  const read = sheetFromTexts({ ...other, targetPa: texts.targetPa }, other, inPa.units);
  expect(read).toEqual({ ok: true, fields: { targetPa: 133.322 } });
});

test('the rig is typed as its plates and labels have it', () => {
  const typed = {
    ...before,
    pumpDisplacementM3PerS: '120 L/min',
    pumpUltimatePa: '25',
    hoseBoreM: '9,5',
    hoseLengthM: '1.2',
    hoseCount: '2',
    core: 'out',
  };
  const read = sheetFromTexts(typed, before, MICRON.units);
  if (!read.ok) throw new Error(`${read.field} was not read`);
  expect(read.fields.pumpDisplacementM3PerS).toBeCloseTo(0.002, 12);
  expect(read.fields.pumpUltimatePa).toBeCloseTo(paFromMicron(25), 12);
  expect(read.fields.hoseBoreM).toBeCloseTo(0.0095, 12);
  expect(read.fields).toMatchObject({ hoseLengthM: 1.2, hoseCount: 2, core: 'out' });
  const kept = sheetFromEntries([{ elapsedS: 0, fields: read.fields }]);
  expect(textsFromSheet(kept, MICRON)).toEqual({ ...typed, hoseBoreM: '9.5' });
});

test('entries that know nothing of a rig stay readable', () => {
  const entry = sheetEntrySchema.parse({ elapsedS: 0, fields: { volumeM3: 0.004, site: 'Shop' } });
  expect(sheetFromEntries([entry])).toMatchObject({
    volumeM3: 0.004,
    pumpDisplacementM3PerS: null,
    core: 'unknown',
  });
});

test('a known value can be made unknown again', () => {
  const known = { ...before, volumeM3: '3' };
  expect(sheetFromTexts({ ...known, volumeM3: '' }, known, MICRON.units)).toEqual({
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
  ['pumpDisplacementM3PerS', '0'],
  ['hoseBoreM', '0.5'],
  ['hoseCount', '1.5'],
] as const)('%s can’t be "%s"', (field, text) => {
  expect(sheetFromTexts({ ...before, [field]: text }, before, MICRON.units)).toEqual({
    ok: false,
    field,
    mistakable: false,
  });
});

describe('a chosen rule', () => {
  test('brings its figures with it, and leaves alone what it does not say', () => {
    // UFGS-15182, 3.3.3: 300 micron, one hour, 500 micron at its end; nothing of a rise.
    expect(textsForRule('ufgs-15182', before, MICRON)).toEqual({
      passRule: 'ufgs-15182',
      targetPa: '300',
      isolateAtPa: '150',
      holdS: '60',
      endLimitPa: '500',
    });
    const deep = { ...before, isolateAtPa: '100' };
    expect(textsForRule('ufgs-15182', deep, MICRON)).not.toHaveProperty('isolateAtPa');
  });

  test('that asks for a depth alone sets nothing else', () => {
    expect(Object.keys(textsForRule('en-378-2', before, MICRON))).toEqual(['passRule', 'targetPa']);
  });

  test('of one’s own changes no figure', () => {
    expect(textsForRule('own', before, MICRON)).toEqual({ passRule: 'own' });
  });

  test('is entered with its figures, the gauge’s error and the refrigerant', () => {
    const filled = { ...before, ...textsForRule('au-nz-deep', before, MICRON) };
    const typed = { ...filled, gaugeErrorShare: '5', refrigerant: 'R-32' };
    const read = sheetFromTexts(typed, before, MICRON.units);
    if (!read.ok) throw new Error(`${read.field} was not read`);
    expect(read.fields).toMatchObject({
      passRule: 'au-nz-deep',
      gaugeErrorShare: 0.05,
      refrigerant: 'R-32',
      holdS: 3600,
    });
    expect(read.fields.allowedRisePa).toBeCloseTo(paFromMicron(100), 6);
  });
});

test('entries from before rules, gauge’s error and refrigerant could be entered stay readable', () => {
  const entry = sheetEntrySchema.parse({ elapsedS: 0, fields: { endLimitPa: 80 } });
  expect(sheetFromEntries([entry])).toMatchObject({
    passRule: 'own',
    gaugeErrorShare: null,
    refrigerant: 'unknown',
  });
});
