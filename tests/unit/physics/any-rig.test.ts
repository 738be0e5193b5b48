/** What holds for every rig under all hands. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { advance } from '../../../simulators/physics/advance.ts';
import { controlsAsFound, type Controls } from '../../../simulators/physics/controls.ts';
import { isPhysical } from '../../../simulators/physics/extrapolated-step.ts';
import { GASES } from '../../../simulators/physics/gases.ts';
import type { RigSetup } from '../../../simulators/physics/rig-setup.ts';
import {
  contentMol,
  createRig,
  totalPressurePa,
  type RigState,
} from '../../../simulators/physics/rig-state.ts';
import { anyHands, anyRig } from '../../support/any-rig.ts';

type Hands = readonly (readonly [number, Controls])[];

/** As found, and after each thing that was done. */
function statesOf(setup: RigSetup, hands: Hands): RigState[] {
  let state = createRig(setup);
  const later = hands.map(([durationS, controls]) => {
    state = advance(state, durationS, controls);
    return state;
  });
  return [createRig(setup), ...later];
}

/** Everything by which one state of a rig is told from another. */
function numbersOf({ sections, pump, enteredMol, pumpedMol, stepS, elapsedS }: RigState): number[] {
  return [
    ...sections.flatMap(({ gasMol, reservoirMol, puddle }) => [
      ...GASES.map((gas) => gasMol[gas]),
      ...reservoirMol,
      puddle.mol,
      puddle.enthalpyJ,
    ]),
    ...[pump.oilWaterMol, pump.foulPa, pump.warmK, pump.ranS, stepS, elapsedS],
    ...GASES.flatMap((gas) => [enteredMol[gas], pumpedMol[gas]]),
  ];
}

function expectBalance(state: RigState): void {
  const before = contentMol(createRig(state.setup));
  const now = contentMol(state);
  for (const gas of GASES) {
    const passedMol = before[gas] + state.enteredMol[gas] + Math.abs(state.pumpedMol[gas]);
    const offMol = now[gas] + state.pumpedMol[gas] - before[gas] - state.enteredMol[gas];
    expect(Math.abs(offMol), gas).toBeLessThanOrEqual(1e-9 * passedMol);
  }
}

describe('any rig under any hands', () => {
  it('neither makes nor loses a gas, is never less than empty and always a number', () => {
    fc.assert(
      fc.property(anyRig, anyHands, (setup, hands) => {
        for (const state of statesOf(setup, hands)) {
          expectBalance(state);
          expect(isPhysical(state)).toBe(true);
          expect(numbersOf(state).every(Number.isFinite)).toBe(true);
          expect(GASES.every((gas) => state.enteredMol[gas] >= 0)).toBe(true);
        }
      }),
      { numRuns: 60, seed: 20_260 },
    );
  });

  it('does the same again', () => {
    fc.assert(
      fc.property(anyRig, anyHands, (setup, hands) => {
        const [once, again] = [statesOf(setup, hands), statesOf(setup, hands)];
        expect(again.map(numbersOf)).toEqual(once.map(numbersOf));
      }),
      { numRuns: 10, seed: 20_261 },
    );
  });

  it('comes to the same in one go and second by second', () => {
    fc.assert(
      fc.property(anyRig, anyHands, (setup, hands) => {
        const start = statesOf(setup, hands.slice(0, -1)).at(-1) ?? createRig(setup);
        const controls = hands.at(-1)?.[1] ?? controlsAsFound(setup);
        let secondBySecond = start;
        for (let second = 0; second < 30; second += 1) {
          secondBySecond = advance(secondBySecond, 1, controls);
        }
        const inOneGo = advance(start, 30, controls);
        setup.sections.forEach((_, index) => {
          const oftenPa = totalPressurePa(secondBySecond, index);
          const offPa = totalPressurePa(inOneGo, index) - oftenPa;
          expect(Math.abs(offPa), `section ${index}`).toBeLessThan(0.01 * oftenPa + 0.05);
        });
      }),
      { numRuns: 25, seed: 20_262 },
    );
  });
});
