/** What to do next follows from the conclusions, the sheet and the marks alone. */
import { describe, expect, test } from 'vitest';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { daysWork } from '../../../web/steps/days-work.ts';
import { nextStep } from '../../../web/steps/next-step.ts';
import { conclusionsWith, forecastWith, inRise } from './invented-conclusions.ts';

function mark(kind: MarkKind, elapsedS: number): Mark {
  return { id: elapsedS + 1, kind, elapsedS, text: '', madeBy: 'hand' };
}

function kindOf(conclusions: ReturnType<typeof conclusionsWith>, marks: readonly Mark[] = []) {
  return nextStep(conclusions, DEFAULT_SHEET, marks).kind;
}

describe('while pumping', () => {
  test('keep pumping, to the depth on the sheet', () => {
    expect(nextStep(conclusionsWith(), DEFAULT_SHEET, [])).toEqual({
      kind: 'keep_pumping',
      isolateAtPa: DEFAULT_SHEET.isolateAtPa,
    });
  });

  test('an opened ballast is closed from 3000 micron on, and once', () => {
    const at = (micron: number) => conclusionsWith({ pressurePa: paFromMicron(micron) });
    const opened = [mark('ballast_opened', 5)];
    expect(kindOf(at(3100), opened)).toBe('keep_pumping');
    expect(nextStep(at(2900), DEFAULT_SHEET, opened)).toEqual({
      kind: 'close_ballast',
      known: true,
    });
    expect(kindOf(at(2900), [mark('ballast_closed', 9), ...opened])).toBe('keep_pumping');
  });

  test('where nobody spoke of a ballast, it is asked about, but not for ever', () => {
    const at = (micron: number) => conclusionsWith({ pressurePa: paFromMicron(micron) });
    expect(nextStep(at(2000), DEFAULT_SHEET, [])).toEqual({ kind: 'close_ballast', known: false });
    expect(kindOf(at(900))).toBe('keep_pumping');
  });

  test.each([
    ['boil_off', 'reaches', 'let_it_boil'],
    ['ballast', 'levels_off', 'close_ballast'],
    ['floor', 'levels_off', 'find_cause'],
    ['sensor', 'levels_off', 'look_at_sensor'],
    ['rising', 'too_early', 'look_for_inflow'],
  ] as const)('%s with "%s" leads to %s', (cause, outcome, kind) => {
    const forecast = forecastWith({ outcome, causes: [{ cause, weight: 1 }] });
    expect(kindOf(conclusionsWith({ forecast }))).toBe(kind);
  });

  test('at the isolation depth, held, everything else can wait', () => {
    const conclusions = conclusionsWith({
      isolationDepthReachedS: 500,
      pressurePa: paFromMicron(240),
    });
    expect(kindOf(conclusions, [mark('ballast_opened', 5)])).toBe('valve_off');
  });

  test('after a hold that leaked, the leak comes before another hold', () => {
    const stepAfter = (leaks: number) => {
      const none = { estimate: 0, low: 0, high: 0 };
      const told = { leaks, leaksTooMuch: 0.99, risesTooMuch: 0, leakPaPerS: none, endPa: none };
      const conclusions = conclusionsWith({
        isolationDepthReachedS: 500,
        holdChance: { low: 0, high: 1, reasons: [{ kind: 'earlier_hold', ...told }] },
      });
      return nextStep(conclusions, DEFAULT_SHEET, []);
    };
    expect(stepAfter(0.95)).toMatchObject({ kind: 'valve_off', hasLeaked: true });
    expect(stepAfter(0.5)).toMatchObject({ kind: 'valve_off', hasLeaked: false });
  });
});

describe('after isolation', () => {
  test.each([
    ['moisture', 'nitrogen_break'],
    ['leak', 'stub_test'],
    ['leak_and_moisture', 'stub_test_then_break'],
  ] as const)('%s leads to %s', (verdict, kind) => {
    expect(kindOf(inRise({ verdict }))).toBe(kind);
  });

  test('a pass before the end of the hold lets it run out, and then closes up', () => {
    const early = inRise({ verdict: 'tight_dry', heldS: 600 });
    expect(nextStep(early, DEFAULT_SHEET, [])).toEqual({ kind: 'finish_hold', leftS: 300 });
    expect(kindOf(inRise({ verdict: 'tight_dry', heldS: 900 }))).toBe('close_up');
  });

  test('undecided waits where a wait helps, and otherwise holds again', () => {
    const waiting = inRise({ verdict: 'undecided', moreS: 240 });
    expect(nextStep(waiting, DEFAULT_SHEET, [])).toEqual({ kind: 'wait_for_verdict', moreS: 240 });
    expect(kindOf(inRise({ verdict: 'undecided' }))).toBe('hold_again');
    expect(kindOf(inRise({ verdict: 'undecided', reservations: ['ice_possible'] }))).toBe(
      'warm_it',
    );
  });

  test('a sensor that sees no system, or a falling rise, comes before any verdict', () => {
    const seesStub = inRise({ verdict: 'undecided', moreS: 60, reservations: ['not_the_system'] });
    expect(kindOf(seesStub)).toBe('sensor_to_system');
    expect(kindOf(inRise({ verdict: 'undecided', reservations: ['falling'] }))).toBe('check_valve');
  });
});

describe('the day’s work', () => {
  const now = (conclusions: ReturnType<typeof conclusionsWith> | null) =>
    daysWork(conclusions, DEFAULT_SHEET).find(({ state }) => state === 'now')?.place;

  test('one is in one step at a time', () => {
    expect(now(null)).toBe('hook_up');
    expect(now(conclusionsWith())).toBe('pull_down');
    expect(now(inRise())).toBe('rise');
    expect(now(inRise({ verdict: 'tight_dry', heldS: 600 }))).toBe('rise');
    expect(now(inRise({ verdict: 'tight_dry', heldS: 900 }))).toBe('closing_up');
  });
});
