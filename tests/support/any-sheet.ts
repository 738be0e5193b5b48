/** Any job sheet that the schema lets through, for properties. */
import fc from 'fast-check';
import { USUAL_NITROGEN_GAUGE } from '../../protocol/nitrogen-test.ts';
import { PASS_RULE_IDS } from '../../protocol/pass-rules.ts';
import { REFRIGERANT_NUMBERS } from '../../protocol/refrigerants.ts';
import { PUMP_BALLASTS } from '../../protocol/rig-facts.ts';
import {
  CORE_PLACES,
  OIL_TYPES,
  SENSOR_VIEWS,
  type Sheet,
  SYSTEM_HISTORIES,
} from '../../protocol/sheet.ts';
import { NO_TRIPLE_PLAN } from '../../protocol/triple-plan.ts';

export const anySheet: fc.Arbitrary<Sheet> = fc.record({
  site: fc.constant(''),
  equipment: fc.constant(''),
  refrigerant: fc.constantFrom('unknown' as const, ...REFRIGERANT_NUMBERS),
  targetPa: fc.double({ min: 0.1, max: 2e5, noNaN: true }),
  isolateAtPa: fc.double({ min: 0.1, max: 2e5, noNaN: true }),
  holdS: fc.integer({ min: 60, max: 86_400 }),
  endLimitPa: fc.double({ min: 0.1, max: 2e5, noNaN: true }),
  allowedRisePa: fc.double({ min: 0.1, max: 2e5, noNaN: true }),
  passRule: fc.constantFrom(...PASS_RULE_IDS),
  gaugeErrorShare: fc.option(fc.double({ min: 0, max: 0.9, noNaN: true })),
  leakLimitPaPerS: fc.double({ min: 1e-6, max: 1000, noNaN: true }),
  volumeM3: fc.option(fc.double({ min: 1e-4, max: 100, noNaN: true })),
  metalTemperatureC: fc.option(fc.double({ min: -80, max: 120, noNaN: true })),
  coldestTemperatureC: fc.option(fc.double({ min: -80, max: 120, noNaN: true })),
  sensorSees: fc.constantFrom(...SENSOR_VIEWS),
  pumpDisplacementM3PerS: fc.option(fc.double({ min: 1e-5, max: 1, noNaN: true })),
  pumpUltimatePa: fc.option(fc.double({ min: 0.1, max: 1e4, noNaN: true })),
  pumpBatteryS: fc.option(fc.double({ min: 1, max: 86_400, noNaN: true })),
  hoseBoreM: fc.option(fc.double({ min: 1e-3, max: 0.1, noNaN: true })),
  hoseLengthM: fc.option(fc.double({ min: 0.05, max: 100, noNaN: true })),
  hoseCount: fc.option(fc.integer({ min: 1, max: 10 })),
  core: fc.constantFrom(...CORE_PLACES),
  nitrogenReadings: fc.constant([]),
  nitrogenGauge: fc.constant(USUAL_NITROGEN_GAUGE),
  triplePlan: fc.constant(NO_TRIPLE_PLAN),
  seenSection: fc.constantFrom('', 'Indoor coil'),
  stubVolumeM3: fc.option(fc.double({ min: 1e-6, max: 1, noNaN: true })),
  serial: fc.constant(''),
  oil: fc.constantFrom(...OIL_TYPES),
  systemHistory: fc.constantFrom(...SYSTEM_HISTORIES),
  altitudeM: fc.option(fc.double({ min: -500, max: 6000, noNaN: true })),
  ambientTemperatureC: fc.option(fc.double({ min: -80, max: 120, noNaN: true })),
  coldestPlace: fc.constant(''),
  people: fc.constant(''),
  valveOrder: fc.constant(''),
  tickedSteps: fc.constant([]),
  pumpBallast: fc.constantFrom(...PUMP_BALLASTS),
  pumpOilChangedOn: fc.constant(''),
  tubes: fc.constant([]),
  vessels: fc.constant([]),
  sections: fc.constant([]),
  joins: fc.constant([]),
});
