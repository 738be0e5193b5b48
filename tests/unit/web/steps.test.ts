/** The steps of a job: they go on with curve and marks, say how that is known, and never contradict what is next. */
import { describe, expect, test } from 'vitest';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../protocol/sheet.ts';
import { CLOSING_STEPS, STEP_IDS, type StepId } from '../../../protocol/ticked-steps.ts';
import type { Conclusions } from '../../../web/analysis/conclusions.ts';
import { pumpBattery } from '../../../web/analysis/pull-down/pump-battery.ts';
import { type StepFacts, stepsOf } from '../../../web/analysis/closing/steps-of.ts';
import { nextStep } from '../../../web/steps/next-step.ts';
import { nowStep } from '../../../web/steps/now-step.ts';
import { STEPS_AT } from '../../../web/steps/step-places.ts';
import {
  sayLost,
  sayPumpBattery,
  sayTickedSteps,
  sayValveOrder,
} from '../../../web/words/say-steps.ts';
import { sayNextStep } from '../../../web/words/say-next-step.ts';
import { MICRON } from '../../support/english-speech.ts';
import { conclusionsWith, forecastWith, inRise } from './invented-conclusions.ts';

function mark(kind: MarkKind, elapsedS: number): Mark {
  return { id: elapsedS + 1, kind, elapsedS, text: '', madeBy: 'hand' };
}
const marksOf = (...kinds: readonly MarkKind[]) => kinds.map((kind, at) => mark(kind, 2000 + at));
const sheetWith = (change: Partial<Sheet>): Sheet => ({ ...DEFAULT_SHEET, ...change });
/** In the hold that passed. */
const LATER_S = 1950;
const ticked = (...steps: readonly StepId[]) =>
  sheetWith({ tickedSteps: steps.map((step) => ({ step, state: 'done', atS: LATER_S })) });

/** As the page has it: the one that is now is that of the next thing to do. */
function steps(
  conclusions: Conclusions | null,
  marks: readonly Mark[] = [],
  sheet: Sheet = DEFAULT_SHEET,
  hasBoiledOff: StepFacts['hasBoiledOff'] = null,
) {
  const next = conclusions === null ? null : nextStep(conclusions, sheet, marks);
  const now = nowStep(next, conclusions);
  const list = stepsOf({ conclusions, marks, sheet, hasBoiledOff, now });
  return new Map(list.map((step) => [step.id, step]));
}
const stateOf = (list: ReturnType<typeof steps>, ...ids: readonly StepId[]) =>
  ids.map((id) => list.get(id)?.state);
const nowIn = (list: ReturnType<typeof steps>) =>
  [...list.values()].filter(({ state }) => state === 'now').map(({ id }) => id);

const HOLD = {
  fromS: 1000,
  toS: 1900,
  recognisedBy: 'mark',
  isolationSure: true,
  pumpedS: 900,
  repeats: false,
} as const;
const passed = (change: Partial<Conclusions> = {}): Conclusions => ({
  ...inRise({ verdict: 'tight_dry', heldS: 900 }),
  targetReachedS: 600,
  isolationDepthReachedS: 900,
  holds: [HOLD],
  ...change,
});

test('every step has one place in the work, in the order of the work', () => {
  expect(Object.values(STEPS_AT).flat()).toEqual(STEP_IDS);
});

test('before any reading the sensor is hooked up, and nothing else is said to be done', () => {
  const list = steps(null);
  expect(nowIn(list)).toEqual(['hook_up']);
  expect([...list.values()].filter(({ state }) => state === 'done')).toEqual([]);
});

describe('by itself', () => {
  test('a pull-down that came to its target tells what it is past, and what nobody spoke of', () => {
    const list = steps(conclusionsWith({ targetReachedS: 500 }), [mark('pump_on', 100)]);
    expect(nowIn(list)).toEqual(['depth']);
    expect(list.get('target')).toMatchObject({ state: 'done', knownBy: 'curve', atS: 500 });
    expect(list.get('pull_down')).toMatchObject({ state: 'done', knownBy: 'hand', atS: 100 });
    expect(stateOf(list, 'nitrogen_test', 'pump_check', 'ballast_close', 'hold')).toEqual([
      'skipped',
      'skipped',
      'skipped',
      'to_come',
    ]);
  });

  test('a hold by the curve is a valve that was shut, and a verdict is one', () => {
    const list = steps(passed(), [], DEFAULT_SHEET, false);
    expect(list.get('valve_off')).toMatchObject({ state: 'done', knownBy: 'curve', atS: 1000 });
    expect(list.get('hold')).toMatchObject({ state: 'done', atS: 1900 });
    expect(stateOf(list, 'pump_off', 'verdict', 'oil_change')).toEqual([
      'skipped',
      'done',
      'not_needed',
    ]);
    expect(steps(passed(), [], DEFAULT_SHEET, true).get('oil_change')?.state).toBe('skipped');
  });

  test('what was marked in an earlier hold does not count for the next one', () => {
    const again = conclusionsWith({ pullDownS: 1950, holds: [HOLD] });
    const list = steps(again, [mark('isolated', 1000), mark('pump_off', 1010)]);
    expect(stateOf(list, 'valve_off', 'pump_off')).toEqual(['to_come', 'to_come']);
  });
});

describe('by hand', () => {
  test('a tick says it, also that it is not needed; the job sheet says the rest', () => {
    const sheet = sheetWith({
      sensorSees: 'system',
      core: 'in',
      tickedSteps: [
        { step: 'nitrogen_test', state: 'done', atS: 7 },
        { step: 'ballast_close', state: 'not_needed', atS: 8 },
      ],
    });
    const list = steps(conclusionsWith({ pressurePa: 200 }), [], sheet);
    expect(list.get('nitrogen_test')).toMatchObject({ state: 'done', knownBy: 'hand', atS: 7 });
    expect(list.get('ballast_close')).toMatchObject({ state: 'not_needed', knownBy: 'hand' });
    expect(list.get('hook_up')).toMatchObject({ state: 'done', knownBy: 'entry' });
    expect(list.get('cores_in')).toMatchObject({ state: 'not_needed', knownBy: 'entry' });
    // Nobody is asked about a ballast that the pump has not got.
    expect(nowIn(list)).toEqual(['pull_down']);
  });

  test('a tick of what is asked for now does not hide it: the curve asks on', () => {
    const deep = conclusionsWith({ isolationDepthReachedS: 500, targetReachedS: 400 });
    expect(nowIn(steps(deep, [], ticked('valve_off')))).toEqual(['valve_off']);
  });
});

describe('closing up', () => {
  const nextIn = (marks: readonly Mark[], sheet: Sheet = DEFAULT_SHEET) => {
    const next = nextStep(passed(), sheet, marks);
    return next.kind === 'close_up' ? next.step : next.kind;
  };

  test('is led step by step to its end', () => {
    expect(nextIn([])).toBe('cores_in');
    expect(nextIn(marksOf('cores_in'))).toBe('tool_closed');
    const closed = ticked('tool_closed');
    expect(nextIn(marksOf('cores_in'), closed)).toBe('sensor_isolated');
    expect(nextIn(marksOf('cores_in', 'sensor_isolated'), closed)).toBe('valves_opened');
    const released = marksOf('cores_in', 'sensor_isolated', 'charge_released');
    expect(nextIn(released, closed)).toBe('pressure_positive');
    const off = ticked('tool_closed', 'pressure_positive', 'tool_off');
    expect(nextIn(released, off)).toBe('power_on');
    expect(nextIn(released, ticked(...CLOSING_STEPS))).toBeNull();
  });

  test('where the charge is in, what was passed by is not asked for any more', () => {
    expect(nextIn(marksOf('charge_released'))).toBe('pressure_positive');
    // Nor does a verdict that is no pass bring anybody back to the pump.
    const leaks = { ...passed(), rise: inRise({ verdict: 'leak' }).rise };
    expect(nextStep(leaks, DEFAULT_SHEET, marksOf('charge_released'))).toEqual({
      kind: 'close_up',
      step: 'pressure_positive',
      passed: false,
    });
  });

  test('never comes to power before the charge is in and the gauge shows pressure', () => {
    const all = CLOSING_STEPS.map((step) => ({ step, state: 'not_needed' as const, atS: LATER_S }));
    expect(nextIn([], sheetWith({ tickedSteps: all }))).toBe('valves_opened');
    expect(nextIn([], ticked('power_on'))).toBe('cores_in');
    expect(nextIn([], ticked('tool_off', 'power_on'))).toBe('cores_in');
    expect(nextIn(marksOf('charge_released'), ticked('tool_off'))).toBe('pressure_positive');
    // Nobody can do without the pressure: what calls it needless does not count.
    const others = sheetWith({ tickedSteps: all.filter(({ step }) => step !== 'valves_opened') });
    expect(nextIn(marksOf('charge_released'), others)).toBe('pressure_positive');
  });

  test('of an earlier hold is not that of this one', () => {
    const before = sheetWith({
      tickedSteps: CLOSING_STEPS.map((step) => ({ step, state: 'done' as const, atS: 1 })),
    });
    expect(nextIn([], before)).toBe('cores_in');
  });

  test('without a pass says so at its end', () => {
    const leaks = { ...passed(), rise: inRise({ verdict: 'leak' }).rise };
    const next = nextStep(leaks, ticked(...CLOSING_STEPS), marksOf('charge_released'));
    expect(sayNextStep(next, MICRON).todo).toBe('Closed up without a pass.');
  });

  test('is done by the curve alone where the curve alone can tell', () => {
    const list = steps(conclusionsWith({}), [], ticked('hold', 'verdict', 'target'));
    expect(stateOf(list, 'hold', 'verdict', 'target')).not.toContain('done');
  });

  test('the list shows the one that the large letters say', () => {
    for (const marks of [[], marksOf('cores_in'), marksOf('cores_in', 'charge_released')]) {
      expect(nowIn(steps(passed(), marks))).toEqual([nextIn(marks)]);
    }
  });

  test('the maker’s order comes before what is usual, and that is said to have no source', () => {
    const usual = sayValveOrder(DEFAULT_SHEET, MICRON);
    expect(usual).toHaveLength(1);
    expect(usual[0]).toContain('large (suction) line first');
    expect(usual[0]).toContain('Common practice, no source.');
    const entered = sheetWith({ valveOrder: ' Gas side, then liquid. ', refrigerant: 'R-290' });
    expect(sayValveOrder(entered, MICRON)).toEqual([
      'As the equipment maker has it: Gas side, then liquid.',
      expect.stringContaining('flammable'),
    ]);
  });
});

test('the pump’s battery is set against the forecast, from its latest change on', () => {
  const now = conclusionsWith({
    nowS: 1300,
    forecast: forecastWith({ remainingToIsolation: { p10S: 300, p50S: 600, p90S: null } }),
  });
  const sheet = { pumpBatteryS: 1500 };
  expect(pumpBattery(now, [], sheet)).toEqual({ sinceS: 100, leftS: 300, needsS: 600 });
  const changed = pumpBattery(now, [mark('battery_changed', 1000)], sheet);
  expect(changed).toEqual({ sinceS: 1000, leftS: 1200, needsS: 600 });
  expect(pumpBattery(now, [], { pumpBatteryS: null })).toBeNull();
  expect(sayPumpBattery({ sinceS: 0, leftS: 300, needsS: 600 }, MICRON)).toContain('Not enough');
  expect(sayPumpBattery({ sinceS: 0, leftS: 1200, needsS: 600 }, MICRON)).toContain('Enough.');
  expect(sayPumpBattery({ sinceS: 0, leftS: -9, needsS: null }, MICRON)).not.toContain('needed');
});

test('ticks and a loss are said in words', () => {
  expect(sayTickedSteps([], MICRON)).toBe('not entered');
  expect(sayTickedSteps([{ step: 'power_on', state: 'done', atS: 1 }], MICRON)).toBe(
    'Power on: done',
  );
  const loss = { atS: 1, knownS: 9, fromPa: 33.3, toPa: null };
  expect(sayLost(loss, '10:12', MICRON)).toMatch(
    /from 250 micron to above the sensor’s range at 10:12/u,
  );
});
