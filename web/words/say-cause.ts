/** Why the curve is as it is: the cause, what in the curve speaks for it, the check that tells. */
import type { Cause } from '../analysis/conclusions.ts';
import { sayTemperature } from './say-temperature.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export interface CauseWords {
  readonly name: string;
  readonly evidence: string;
  readonly check: string;
}

export function sayCause(
  cause: Cause,
  boilingPointC: number | null,
  units: UnitsOfChoice,
): CauseWords {
  switch (cause) {
    case 'gas':
      return {
        name: 'Free gas is being pumped out',
        evidence: 'The fall keeps its pace.',
        check: 'Nothing to check.',
      };
    case 'boil_off':
      return {
        name: 'Water is boiling off',
        evidence:
          'The pressure lingers near or below the triple point, 4590 micron' +
          (boilingPointC === null
            ? '.'
            : `; at this pressure water boils at ${sayTemperature(boilingPointC, units.temperature)}.`),
        check: 'Look for cold or frosted pipe, and warm it. This ends by itself.',
      };
    case 'slow_tail':
      return {
        name: 'Walls and oil give off gas',
        evidence: 'The fall slows but goes on.',
        check: 'Warm the compressor as its maker allows, or change the pump’s oil.',
      };
    case 'ballast':
      return {
        name: 'The gas ballast is open',
        evidence: 'The curve flattens where a pump with open ballast does.',
        check: 'Close the ballast: the pressure falls again within a minute.',
      };
    case 'floor':
      return {
        name: 'The pump’s own floor, or a leak that balances the pump',
        evidence: 'The curve flattens to a level and stays there.',
        check:
          'Blank the pump off at its inlet. If it stays this high, change its oil; ' +
          'if it goes deep, valve off the system and watch the rise.',
      };
    case 'wet_oil':
      return {
        name: 'The pump’s oil is wet',
        evidence: 'The level that the curve has come to still sinks a little.',
        check: 'Change the pump’s oil, warm, or run the pump blanked off with its ballast open.',
      };
    case 'rising':
      return {
        name: 'Something lets the pressure rise',
        evidence: 'It rises where it should fall.',
        check: 'Is the pump running, and every valve towards it open? Then look for a leak.',
      };
    case 'sensor':
      return {
        name: 'The sensor',
        evidence: 'It is beyond its range, or its number does not move at all.',
        check: 'Look for oil in the sensor, and compare with a second one.',
      };
  }
}

/** Weights are no more exact than these words. */
export function sayLikelihood(weight: number): string {
  if (weight >= 0.7) return 'most likely';
  if (weight >= 0.4) return 'likely';
  return weight >= 0.15 ? 'possible' : 'less likely';
}
