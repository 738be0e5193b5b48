/** The verdict on simulated pumps that are alone with the sensor: what it says of each, whenever somebody looks. */
import { describe, expect, test } from 'vitest';
import { checkPump } from '../../../web/plan/pump-check.ts';
import { blankedOff, PUMP_STATES, type PumpState } from '../../support/blanked-off.ts';

const SEEDS = [201, 202, 203, 204, 205, 206];
const LOOKS_MIN = [1, 1.5, 2, 3, 4, 5, 6, 8, 10];
const WITHIN_MIN = 5;

const TRIALS = new Map(
  PUMP_STATES.map((state) => [state, SEEDS.map((seed) => blankedOff(state, seed, 601))]),
);

/** What is said of them at these moments, by what is entered of the pump. */
function saidOf(state: PumpState, looksMin: readonly number[], isEntered: boolean): string[] {
  const said = new Set<string>();
  for (const { readings, pumpOnS, ultimatePa } of TRIALS.get(state) ?? []) {
    for (const minutes of looksMin) {
      const nowS = pumpOnS + 60 * minutes;
      said.add(
        checkPump({
          readings: readings.filter(({ elapsedS }) => elapsedS <= nowS),
          pumpOnS,
          nowS,
          seesPump: true,
          ultimatePa: isEntered ? ultimatePa : null,
        }).verdict,
      );
    }
  }
  return [...said].sort();
}

const FAULTLESS = ['too_early', 'still_falling', 'good'];
const FAULTS = ['high_floor', 'far_too_high'];
const late = LOOKS_MIN.filter((minutes) => minutes > WITHIN_MIN);

describe.each([true, false])('with its figure entered: %s', (isEntered) => {
  test('a pump in order is never found fault with, and good in the end', () => {
    const fault = saidOf('good', LOOKS_MIN, isEntered).filter((one) => !FAULTLESS.includes(one));
    expect(fault).toEqual([]);
    expect(saidOf('good', LOOKS_MIN.slice(-1), isEntered)).toEqual(['good']);
  });

  test.each(['wet', 'worn', 'leaking_hose', 'ballast_open'] as const)(
    '%s is never good, and told once five minutes are over',
    (state) => {
      expect(saidOf(state, LOOKS_MIN, isEntered)).not.toContain('good');
      const untold = saidOf(state, late, isEntered).filter((one) => !FAULTS.includes(one));
      expect(untold).toEqual([]);
    },
  );
});

test('an open ballast stays far too high, as its words say', () => {
  expect(saidOf('ballast_open', late, true)).toEqual(['far_too_high']);
});
