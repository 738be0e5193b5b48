/** What is typed of a nitrogen test and of a plan of evacuations, and the facts that come of it. */
import { describe, expect, test } from 'vitest';
import { gaugeFromUnit } from '../../../protocol/gauge-pressure.ts';
import { USUAL_NITROGEN_GAUGE } from '../../../protocol/nitrogen-test.ts';
import { triplePlanOf } from '../../../protocol/triple-plan.ts';
import { paFromMicron, STANDARD_ATMOSPHERE_PA } from '../../../protocol/units.ts';
import { planFromTexts, textsFromPlan } from '../../../web/cycles/plan-texts.ts';
import {
  gaugeFromTexts,
  textsFromGauge,
  withReading,
} from '../../../web/nitrogen/nitrogen-form.ts';
import { sayUnusualReading } from '../../../web/nitrogen/unusual-reading.ts';
import { MICRON } from '../../support/english-speech.ts';

const NOW_MS = 1_700_000_000_000;
const TEXTS = {
  pressure: '500',
  temperature: '21,5',
  when: '-1 h',
  step: '2',
  note: ' roof ',
  justFilled: false,
};

describe('a reading of the nitrogen test', () => {
  const read = (texts: Partial<typeof TEXTS>, unit: 'psi' | 'bar' = 'psi') =>
    withReading([], { ...TEXTS, ...texts }, unit, MICRON, NOW_MS);

  test('is a gauge pressure, at its moment, in order of time', () => {
    const first = read({});
    if (!first.ok) throw new Error(first.wrong);
    expect(first.readings).toEqual([
      {
        atMs: NOW_MS - 3_600_000,
        pressure: gaugeFromUnit(500, 'psi'),
        temperatureC: 21.5,
        step: 2,
        justFilled: false,
        note: 'roof',
      },
    ]);
    const earlier = withReading(first.readings, { ...TEXTS, when: '-2 h' }, 'psi', MICRON, NOW_MS);
    expect(earlier.ok && earlier.readings.map(({ atMs }) => atMs - NOW_MS)).toEqual([
      -7_200_000, -3_600_000,
    ]);
  });

  test.each([
    [{ pressure: '1,500' }, 'pressure'],
    [{ pressure: '' }, 'pressure'],
    [{ pressure: '-3' }, 'pressure'],
    [{ pressure: '99999999' }, 'pressure'],
    [{ temperature: 'warm' }, 'temperature'],
    [{ when: 'soon' }, 'when'],
    [{ step: '0' }, 'step'],
  ])('is refused with %s', (texts, wrong) => {
    expect(read(texts)).toEqual({ ok: false, wrong });
  });

  test('may be of a test that began a week ago, and the message names that bound', () => {
    for (const [when, hours] of [
      ['-24 h', 24],
      ['-168 h', 168],
    ] as const) {
      const begun = read({ when });
      expect(begun.ok && begun.readings.map(({ atMs }) => NOW_MS - atMs)).toEqual([
        hours * 3_600_000,
      ]);
    }
    expect(read({ when: '-169 h' })).toEqual({ ok: false, wrong: 'when' });
    expect(MICRON.wording.nitrogen.wrong.when).toContain('7 days');
  });

  test('in bar may have thousandths', () => {
    expect(read({ pressure: '1,500' }, 'bar').ok).toBe(true);
  });
});

test('a gauge of which nothing was changed stays exactly what it was', () => {
  const texts = textsFromGauge(USUAL_NITROGEN_GAUGE, 'psi', MICRON);
  expect(gaugeFromTexts(texts, USUAL_NITROGEN_GAUGE, 'psi', MICRON)).toEqual({
    ok: true,
    gauge: USUAL_NITROGEN_GAUGE,
  });
  const finer = gaugeFromTexts({ ...texts, accuracy: '0.25' }, USUAL_NITROGEN_GAUGE, 'psi', MICRON);
  expect(finer.ok && finer.gauge.accuracyShare).toBeCloseTo(0.0025, 12);
  const wrong = { ...texts, ambient: '14.7' };
  expect(gaugeFromTexts(wrong, USUAL_NITROGEN_GAUGE, 'psi', MICRON)).toEqual({
    ok: false,
    wrong: 'ambient',
  });
});

test('a plan goes through the form and back, and none without a depth', () => {
  const plan = triplePlanOf('teaching');
  if (plan === null) throw new Error('courses teach one');
  const texts = textsFromPlan(plan, MICRON);
  expect(texts.cycles.map(({ holdMin }) => holdMin)).toEqual(['15', '20', '']);
  const back = planFromTexts({ ...texts, breakTo: '0.14' }, MICRON);
  expect(back?.cycles[1]?.targetPa).toBeCloseTo(paFromMicron(1500), 9);
  expect(back?.cycles[1]?.holdS).toBe(1200);
  expect(back?.breakToPa).toBeCloseTo(STANDARD_ATMOSPHERE_PA + 14_000, 6);
  expect(planFromTexts({ ...texts, cycles: [{ depth: '', holdMin: '' }] }, MICRON)).toBeNull();
});

test.each([
  ['500', '21', 'psi', null],
  ['0', '21', 'bar', null],
  ['250', '21', 'bar', '250.0 bar (gauge)'],
  ['3', '21', 'kPa', '3.000 kPa (gauge)'],
  ['500', '75', 'psi', '75 °C'],
] as const)('%s at %s °C in %s: asked about is %s', (pressure, temperature, unit, asked) => {
  const read = withReading([], { ...TEXTS, pressure, temperature }, unit, MICRON, NOW_MS);
  expect(read.ok ? sayUnusualReading(read.added, unit, MICRON) : read.wrong).toBe(asked);
});
