/** What a trainee sees beforehand: drawn from the ordinary part of a job alone, so it tells nothing. */
import { celsiusFromKelvin } from '../../../protocol/units.ts';
import type { Scenario } from '../scenario.ts';
import type { Chance } from './chance.ts';
import type { Difficulty } from './difficulty.ts';
import type { Job } from './job.ts';

const HOUSES = [
  'Bakery',
  'Bookshop',
  'Chapel hall',
  'Florist',
  'Guest house',
  'Joinery',
  'Laundry',
  'Library',
  'Music school',
  'Optician',
  'Pharmacy',
  'Print shop',
  'Tailor',
  'Village school',
] as const;
const STREETS = [
  'Alder Street',
  'Bridge Street',
  'Castle Lane',
  'Foundry Road',
  'Garden Row',
  'Hill Street',
  'Lower Market',
  'Meadow Lane',
  'North Gate',
  'Orchard Road',
  'Saddlers Row',
  'Station Road',
] as const;
const ROOMS = [
  'attic room',
  'back room',
  'cold store',
  'first floor',
  'front room',
  'hall',
  'office',
  'server room',
  'sales room',
  'workshop',
] as const;
const HISTORIES = [
  'was hung and connected this week',
  'was moved and connected again',
  'had its compressor replaced',
  'had a valve replaced',
  'is to be started again after a pause of a year',
] as const;

export function drawCard(chance: Chance, difficulty: Difficulty, job: Job): Scenario['card'] {
  const place = `${chance.oneOf(HOUSES)} in ${chance.oneOf(STREETS)}, ${chance.oneOf(ROOMS)}`;
  const { volumeM3, line, hose, pump, heightM, surroundings } = job;
  return {
    name: generatedName(difficulty),
    place,
    situation:
      `A system of about ${(volumeM3 * 1000).toPrecision(2)} L with ${line.lengthM.toFixed(0)} m of ` +
      `line set ${chance.oneOf(HISTORIES)}. ${hose.count === 1 ? 'One hose' : 'Two hoses'} of ` +
      `${hose.lengthM.toFixed(1)} m, a ${pump.cfm} cfm pump. It is ` +
      `${celsiusFromKelvin(surroundings.temperatureK).toFixed(0)} °C, ` +
      `${(Math.round(heightM / 50) * 50).toFixed(0)} m above the sea.`,
  };
}

/** What one asks for a generated job by; the seed says which. */
export function generatedName(difficulty: Difficulty): string {
  return `generated-${difficulty}`;
}
