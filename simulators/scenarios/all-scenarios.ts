/** Every scenario that can be rehearsed, in the order in which they are offered. */
import { LINDENS_DENTAL_PRACTICE } from './lindens-dental-practice.ts';
import { QUARRY_ROAD_BAKERY } from './quarry-road-bakery.ts';
import { scenarioSchema } from './scenario.ts';
import type { Scenario } from './scenario.ts';
import { WEIR_STREET_ARCHIVE } from './weir-street-archive.ts';

export const ALL_SCENARIOS: readonly Scenario[] = [
  LINDENS_DENTAL_PRACTICE,
  WEIR_STREET_ARCHIVE,
  QUARRY_ROAD_BAKERY,
].map((scenario) => scenarioSchema.parse(scenario));
