/** Why the curve is as it is: the cause, what in the curve speaks for it, the check that tells. */
import { boilingPointC } from '../../protocol/water.ts';
import type { Cause, Conclusions, Estimate } from '../analysis/conclusions.ts';
import { sayPressure, sayPressureBetween } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export interface CauseWords {
  readonly name: string;
  readonly evidence: string;
  readonly check: string;
}

/** The least that the boiling temperature is given for: far below what sensors of the trade resolve. */
const FAINTEST_PA = 0.01;

/** What of the present curve a cause is told by. */
export interface CauseFacts {
  /** Where water boils at the present pressure, °C; null where that is not known. */
  readonly boilingPointC: number | null;
  readonly pressurePa: number | null;
  readonly floorPa: Estimate | null;
}

export function causeFacts({ pressurePa, forecast }: Conclusions): CauseFacts {
  const boils = pressurePa === null || pressurePa < FAINTEST_PA ? null : boilingPointC(pressurePa);
  return {
    boilingPointC: forecast?.boilingPointC ?? boils,
    pressurePa,
    floorPa: forecast?.floorPa ?? null,
  };
}

export function sayCause(cause: Cause, facts: CauseFacts, units: UnitsOfChoice): CauseWords {
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
        evidence: sayBoiling(facts, units),
        check:
          'Look for cold, sweating or frosted pipe, and warm it: the pressure rises at first, then falls for good. ' +
          'Warm air or warm cloths, never a flame. It ends by itself, only later.',
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
        evidence: `The curve flattens to a level and stays there${sayLevel(facts, units)}.`,
        check:
          'Blank the pump off at its inlet. If it stays this high, change its oil; ' +
          'if it goes deep, valve off the system and watch the rise.',
      };
    case 'wet_oil':
      return {
        name: 'The pump’s oil is wet',
        evidence: 'The level that the curve has come to still sinks a little.',
        check:
          'Change the pump’s oil while it is warm (it is hot: gloves), or run the pump blanked off with its ballast open.',
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

/** 'At 380 micron water boils at −27 °C: …'. */
function sayBoiling(
  { boilingPointC: boilsC, pressurePa }: CauseFacts,
  units: UnitsOfChoice,
): string {
  if (boilsC === null || pressurePa === null) {
    return 'The pressure lingers near or below the triple point, 4590 micron.';
  }
  const at = sayTemperature(boilsC, units.temperature);
  return `The pressure lingers. At ${sayPressure(pressurePa, units.pressure)} water boils at ${at}: what boils has cooled itself to about that.`;
}

function sayLevel({ floorPa }: CauseFacts, units: UnitsOfChoice): string {
  return floorPa === null ? '' : `: ${sayPressureBetween(floorPa, units.pressure)}`;
}

/** Weights are no more exact than these words. */
export function sayLikelihood(weight: number): string {
  if (weight >= 0.7) return 'most likely';
  if (weight >= 0.4) return 'likely';
  return weight >= 0.15 ? 'possible' : 'less likely';
}
