/** Steps of which nothing says anything, and where the list stands among them. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { STEP_IDS } from '../../../../protocol/ticked-steps.ts';
import { type StepFacts, stepsOf } from '../../../../web/analysis/closing/steps-of.ts';
import type { Conclusions } from '../../../../web/analysis/conclusions.ts';
import { conclusionsWith } from '../../web/invented-conclusions.ts';
import { describe, expect, test } from 'vitest';

const statesOf = (conclusions: Conclusions | null, now: StepFacts['now'] = null) =>
  new Map(
    stepsOf({ conclusions, marks: [], sheet: DEFAULT_SHEET, hasBoiledOff: null, now }).map(
      (step) => [step.id, step],
    ),
  );
const WAITING = conclusionsWith({
  stage: { name: 'waiting', sinceS: 0, recognisedBy: 'curve', alternatives: [] },
  pullDownS: null,
});

describe('a step of which nothing says anything', () => {
  test.each([
    ['before there is a reading', null],
    ['with a curve that shows nothing yet', WAITING],
  ])('is to come, %s', (_when, conclusions) => {
    for (const id of STEP_IDS) {
      const told = statesOf(conclusions).get(id);
      expect(told, id).toEqual({ id, state: 'to_come', knownBy: null, atS: null });
    }
  });

  test.each([
    ['before there is a reading', null],
    ['with a curve that shows nothing yet', WAITING],
  ])('was skipped where the work is past it, %s', (_when, conclusions) => {
    const states = statesOf(conclusions, 'sensor_isolated');
    const at = STEP_IDS.indexOf('sensor_isolated');
    for (const [i, id] of STEP_IDS.entries()) {
      const state = i < at ? 'skipped' : i === at ? 'now' : 'to_come';
      expect(states.get(id), id).toEqual({ id, state, knownBy: null, atS: null });
    }
  });

  test('is skipped as well where a later one is seen to be done', () => {
    const states = statesOf({ ...WAITING, pullDownS: 100, targetReachedS: 300 });
    expect(states.get('hook_up')).toMatchObject({ state: 'done', knownBy: 'curve', atS: 100 });
    expect(states.get('target')).toMatchObject({ state: 'done', knownBy: 'curve', atS: 300 });
    expect(states.get('pump_check')?.state).toBe('skipped');
    expect(states.get('depth')?.state).toBe('to_come');
  });
});
