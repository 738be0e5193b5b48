/** The next step in words: the thing to do, and why or how where that is not plain. */
import { sayRoughDuration } from './say-duration.ts';
import { saySetting } from './say-pressure.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export type NextStep =
  | { readonly kind: 'start_pump' }
  /** `known` false: nobody said whether this pump has a ballast and whether it is open. */
  | { readonly kind: 'close_ballast'; readonly known: boolean }
  | { readonly kind: 'let_it_boil' }
  | { readonly kind: 'keep_pumping'; readonly isolateAtPa: number }
  | { readonly kind: 'find_cause' }
  | { readonly kind: 'look_for_inflow' }
  | { readonly kind: 'look_at_sensor' }
  /** `hasLeaked`: the last hold showed a leak, and nothing was done about it. */
  | { readonly kind: 'valve_off'; readonly isolateAtPa: number; readonly hasLeaked: boolean }
  | { readonly kind: 'wait_for_verdict'; readonly moreS: number }
  | { readonly kind: 'finish_hold'; readonly leftS: number }
  | { readonly kind: 'hold_again' }
  | { readonly kind: 'sensor_to_system' }
  | { readonly kind: 'check_valve' }
  | { readonly kind: 'warm_it' }
  | { readonly kind: 'nitrogen_break' }
  | { readonly kind: 'stub_test' }
  | { readonly kind: 'stub_test_then_break' }
  | { readonly kind: 'close_up' }
  | { readonly kind: 'pump_again' }
  | { readonly kind: 'valve_off_at_once' };

export const NEXT = 'Next';

export interface NextStepWords {
  readonly todo: string;
  readonly how: string;
}

export function sayNextStep(step: NextStep, units: UnitsOfChoice): NextStepWords {
  switch (step.kind) {
    case 'start_pump':
      return {
        todo: 'Start the pump.',
        how: 'Gas ballast open, where the pump has one. The recording already runs.',
      };
    case 'close_ballast':
      return step.known
        ? {
            todo: 'Close the gas ballast.',
            how: 'Its work is done; the pump goes deeper without it.',
          }
        : {
            todo: 'Close the gas ballast, if the pump has one.',
            how: 'And mark it here: the forecast starts afresh from there.',
          };
    case 'let_it_boil':
      return {
        todo: 'Keep pumping, and warm what is cold.',
        how: 'Water boils off and cools itself; heat ends it sooner.',
      };
    case 'keep_pumping':
      return {
        todo: 'Keep pumping.',
        how: `Valve off at ${saySetting(step.isolateAtPa, units.pressure)}, then stop the pump.`,
      };
    case 'find_cause':
      return {
        todo: 'Find out why: a check tells.',
        how: 'The likely causes are below, with the check that tells them apart.',
      };
    case 'look_for_inflow':
      return {
        todo: 'Look at pump and valves: the pressure rises.',
        how: 'Pump running? Valves to it open? Nothing loosened?',
      };
    case 'look_at_sensor':
      return {
        todo: 'Look at the sensor.',
        how: 'Oil in it, or beyond its range? Compare with another.',
      };
    case 'valve_off':
      if (step.hasLeaked) {
        return {
          todo: 'Find the leak, or hold again.',
          how: 'If the slope is the same again, it is a leak. Mark it when joints were tightened.',
        };
      }
      return {
        todo: 'Valve off now.',
        how: `Held below ${saySetting(step.isolateAtPa, units.pressure)}. Close the valve first, then stop the pump.`,
      };
    case 'wait_for_verdict':
      return {
        todo: `Wait another ${sayRoughDuration(step.moreS)}.`,
        how: 'Touch no valve meanwhile; keep the metal’s temperature as it is.',
      };
    case 'finish_hold':
      return {
        todo: `Let the hold run its ${sayRoughDuration(step.leftS)} to the end.`,
        how: 'The rule asks for the whole hold.',
      };
    case 'hold_again':
      return {
        todo: 'Pump ten minutes, then hold again.',
        how: 'A real leak’s slope stays; gas from walls and oil shrinks.',
      };
    case 'sensor_to_system':
      return {
        todo: 'Open the sensor to the system, and say so on the job sheet.',
        how: 'What it sees now says nothing about the system.',
      };
    case 'check_valve':
      return {
        todo: 'Check that the valve is shut and where the sensor sits.',
        how: 'A closed system does not lose pressure by itself.',
      };
    case 'warm_it':
      return {
        todo: 'Warm the coldest part, then hold again.',
        how: 'Ice gives off too little to be seen, and is still water.',
      };
    case 'nitrogen_break':
      return {
        todo: 'Break the vacuum with dry nitrogen, then pump again.',
        how: 'Through a regulator, to just above atmosphere. Valve off the sensor if it is not rated for it.',
      };
    case 'stub_test':
      return {
        todo: 'Exclude hose and sensor joint first.',
        how: 'Close the core tool and watch the stub for 2 minutes. If it rises alike, the leak is there.',
      };
    case 'stub_test_then_break':
      return {
        todo: 'Leak first: exclude hose and sensor joint.',
        how: 'Close the core tool and watch the stub for 2 minutes. Dry with nitrogen once it is tight.',
      };
    case 'close_up':
      return {
        todo: 'Close up.',
        how: 'Cores back in under vacuum, tool closed before anything is taken off.',
      };
    case 'pump_again':
      return { todo: 'Pump down again.', how: 'The system is near atmospheric pressure.' };
    case 'valve_off_at_once':
      return {
        todo: 'Close the valve, then look at the pump.',
        how: 'A standing pump lets air and oil back into the system. If you valved off, mark it here.',
      };
  }
}
