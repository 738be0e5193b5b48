/** By what each step of a job is known to be done: a tick, a mark, an entry, the curve, in this order. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../../protocol/sheet.ts';
import { CLOSING_STEPS, STEP_IDS, type StepId } from '../../../../protocol/ticked-steps.ts';
import { MARK_OF_STEP, stepsOf } from '../../../../web/analysis/closing/steps-of.ts';
import type { Conclusions, ToldHold } from '../../../../web/analysis/conclusions.ts';
import { conclusionsWith, inRise } from '../../web/invented-conclusions.ts';
import { describe, expect, test } from 'vitest';

const mark = (kind: MarkKind, elapsedS: number, id = 1): Mark => {
  return { id, kind, elapsedS, text: '', madeBy: 'hand' };
};
const hold = (fromS: number): ToldHold => {
  return {
    fromS,
    toS: fromS + 900,
    recognisedBy: 'curve',
    isolationSure: true,
    pumpedS: 500,
    repeats: false,
  };
};
/** Pumped from 100 s, held from 1000 s. */
const HELD: Conclusions = {
  ...inRise({ heldS: 900, verdict: 'tight_dry' }),
  holds: [hold(1000)],
  targetReachedS: 400,
  isolationDepthReachedS: 700,
};
const PUMPED = conclusionsWith({});

function told(
  id: StepId,
  facts: {
    conclusions?: Conclusions | null;
    marks?: Mark[];
    sheet?: Partial<Sheet>;
    hasBoiledOff?: boolean | null;
  },
) {
  const { conclusions = HELD, marks = [], sheet = {}, hasBoiledOff = null } = facts;
  const list = stepsOf({
    conclusions,
    marks,
    sheet: { ...DEFAULT_SHEET, ...sheet },
    hasBoiledOff,
    now: null,
  });
  const { state, knownBy, atS } = list.find((step) => step.id === id) ?? {};
  return [state, knownBy, atS];
}

test('each step is there once, in the order of the work', () => {
  const list = stepsOf({
    conclusions: null,
    marks: [],
    sheet: DEFAULT_SHEET,
    hasBoiledOff: null,
    now: null,
  });
  expect(list.map(({ id }) => id)).toEqual([...STEP_IDS]);
  expect(
    list.every(
      ({ state, knownBy, atS }) => state === 'to_come' && knownBy === null && atS === null,
    ),
  ).toBe(true);
});

test('the one that is asked for is now; what lies before it and was not said is skipped', () => {
  const list = stepsOf({
    conclusions: null,
    marks: [mark('oil_changed', 5)],
    sheet: DEFAULT_SHEET,
    hasBoiledOff: null,
    now: 'hold',
  });
  const at = STEP_IDS.indexOf('hold');
  for (const [place, { id, state }] of list.entries()) {
    const expected =
      place === at ? 'now' : id === 'oil_change' ? 'done' : place < at ? 'skipped' : 'to_come';
    expect(state, id).toBe(expected);
  }
});

describe('a mark', () => {
  test.each([
    ['ballast_open', 'ballast_opened'],
    ['pull_down', 'pump_on'],
    ['ballast_close', 'ballast_closed'],
    ['valve_off', 'isolated'],
    ['pump_off', 'pump_off'],
    ['oil_change', 'oil_changed'],
    ['cores_in', 'cores_in'],
    ['sensor_isolated', 'sensor_isolated'],
    ['valves_opened', 'charge_released'],
  ] as const)('says that %s is done: %s', (id, kind) => {
    expect(MARK_OF_STEP[id]).toBe(kind);
    expect(told(id, { marks: [mark(kind, 1500)] })).toEqual(['done', 'hand', 1500]);
    expect(told(id, { marks: [mark(kind, 1200, 1), mark(kind, 1600, 2)] })).toEqual([
      'done',
      'hand',
      1600,
    ]);
  });

  test('of before the hold says nothing of what comes after valving off', () => {
    for (const id of ['pump_off', 'cores_in', 'sensor_isolated', 'valves_opened'] as const) {
      const kind = MARK_OF_STEP[id] ?? 'note';
      expect(told(id, { marks: [mark(kind, 999)] })[0], id).not.toBe('done');
      expect(told(id, { marks: [mark(kind, 1000)] })[0], id).toBe('done');
      expect(told(id, { conclusions: PUMPED, marks: [mark(kind, 1500)] })[0], id).not.toBe('done');
      expect(told(id, { conclusions: null, marks: [mark(kind, 1500)] })[0], id).not.toBe('done');
    }
    expect(told('valve_off', { conclusions: PUMPED, marks: [mark('isolated', 99)] })[0]).not.toBe(
      'done',
    );
    expect(told('valve_off', { conclusions: PUMPED, marks: [mark('isolated', 100)] })[0]).toBe(
      'done',
    );
    expect(told('oil_change', { marks: [mark('oil_changed', 1)] })).toEqual(['done', 'hand', 1]);
  });
});

describe('a tick', () => {
  const ticked = (step: StepId, atS: number, state: 'done' | 'not_needed' = 'done') => ({
    tickedSteps: [{ step, state, atS }],
  });

  test('goes before a mark, and says as well that a step is not needed', () => {
    expect(
      told('pump_off', { sheet: ticked('pump_off', 1100), marks: [mark('pump_off', 1500)] }),
    ).toEqual(['done', 'hand', 1100]);
    expect(told('pump_check', { sheet: ticked('pump_check', 7, 'not_needed') })).toEqual([
      'not_needed',
      'hand',
      7,
    ]);
  });

  test.each(['target', 'depth', 'hold', 'verdict'] as const)(
    'says nothing of %s: the curve tells that',
    (id) => {
      expect(told(id, { conclusions: null, sheet: ticked(id, 5) })[0]).toBe('to_come');
    },
  );

  test.each(CLOSING_STEPS)('of %s is of this hold, or none', (id) => {
    expect(told(id, { sheet: ticked(id, 1000) })).toEqual(['done', 'hand', 1000]);
    expect(told(id, { sheet: ticked(id, 999) })[0]).not.toBe('done');
    expect(told(id, { conclusions: null, sheet: ticked(id, 5000) })[0]).not.toBe('done');
  });
});

describe('the job sheet', () => {
  test('says that the sensor is hooked up once it says what it sees', () => {
    expect(told('hook_up', { conclusions: null, sheet: { sensorSees: 'system' } })).toEqual([
      'done',
      'entry',
      null,
    ]);
    expect(told('hook_up', { conclusions: null })[0]).toBe('to_come');
  });

  test('spares cores that never came out, and a ballast that the pump has not', () => {
    expect(told('cores_in', { sheet: { core: 'in' } })).toEqual(['not_needed', 'entry', null]);
    expect(told('cores_in', { sheet: { core: 'out' } })[0]).not.toBe('not_needed');
    for (const id of ['ballast_open', 'ballast_close'] as const) {
      expect(told(id, { sheet: { pumpBallast: 'no' } })).toEqual(['not_needed', 'entry', null]);
      expect(told(id, { sheet: { pumpBallast: 'yes' } })[0]).toBe('skipped');
      expect(
        told(id, {
          sheet: { pumpBallast: 'no' },
          marks: [mark(id === 'ballast_open' ? 'ballast_opened' : 'ballast_closed', 9)],
        })[0],
      ).toBe('done');
    }
    expect(told('pump_check', { sheet: { pumpBallast: 'no', core: 'in' } })[0]).toBe('skipped');
  });

  test('says that nitrogen held, and not that it leaked', () => {
    const read = (gaugePa: number, atMs: number) => ({
      ...{
        atMs,
        pressure: { kind: 'gauge' as const, gaugePa },
        temperatureC: 20,
        step: 1,
        justFilled: false,
        note: '',
      },
    });
    const hourMs = 3_600_000;
    const nitrogenGauge = {
      ...DEFAULT_SHEET.nitrogenGauge,
      ...{ accuracyShare: 0.0002, stepPa: 100, thermometerK: 0.1, ambientPa: 101_325 },
    };
    const held = { nitrogenGauge, nitrogenReadings: [read(3e6, 0), read(3e6, 24 * hourMs)] };
    const lost = { nitrogenGauge, nitrogenReadings: [read(3e6, 0), read(1e6, 24 * hourMs)] };
    expect(told('nitrogen_test', { sheet: held })).toEqual(['done', 'entry', null]);
    expect(told('nitrogen_test', { sheet: lost })[0]).toBe('skipped');
    expect(told('nitrogen_test', {})[0]).toBe('skipped');
  });
});

describe('the curve', () => {
  test('says when it began, what it reached, and that it was held', () => {
    expect(told('hook_up', {})).toEqual(['done', 'curve', 100]);
    expect(told('pull_down', {})).toEqual(['done', 'curve', 100]);
    expect(told('target', {})).toEqual(['done', 'curve', 400]);
    expect(told('depth', {})).toEqual(['done', 'curve', 700]);
    expect(told('valve_off', {})).toEqual(['done', 'curve', 1000]);
    expect(told('hold', {})).toEqual(['done', 'curve', 1900]);
    expect(told('verdict', {})).toEqual(['done', 'curve', null]);
  });

  test('says nothing of what has not come', () => {
    const early = { ...HELD, ...inRise({ heldS: 899, verdict: 'undecided' }), holds: [hold(1000)] };
    expect(told('hold', { conclusions: early })[0]).toBe('to_come');
    expect(told('verdict', { conclusions: early })[0]).toBe('to_come');
    expect(told('pull_down', { conclusions: PUMPED })[0]).toBe('to_come');
    expect(told('pull_down', { conclusions: conclusionsWith({ targetReachedS: 300 }) })).toEqual([
      'done',
      'curve',
      300,
    ]);
    expect(told('depth', { conclusions: PUMPED })[0]).toBe('to_come');
    const again = conclusionsWith({ pullDownS: 2000, holds: [hold(1000)] });
    expect(told('valve_off', { conclusions: again })[0]).toBe('to_come');
  });

  test('says that oil need not be changed where no water boiled off, once it is held', () => {
    expect(told('oil_change', { hasBoiledOff: false })).toEqual(['not_needed', 'curve', null]);
    expect(told('oil_change', { hasBoiledOff: true })[0]).toBe('to_come');
    expect(told('oil_change', { hasBoiledOff: null })[0]).toBe('to_come');
    expect(told('oil_change', { conclusions: PUMPED, hasBoiledOff: false })[0]).toBe('to_come');
  });
});
