/** The job sheet: what the technician entered. Every field may be missing; none blocks the work. */
import { z } from 'zod';
import {
  nitrogenGaugeSchema,
  nitrogenReadingsSchema,
  USUAL_NITROGEN_GAUGE,
} from './nitrogen-test.ts';
import { PASS_RULE_IDS } from './pass-rules.ts';
import { REFRIGERANT_NUMBERS } from './refrigerants.ts';
import { NO_TRIPLE_PLAN, triplePlanSchema } from './triple-plan.ts';
import { areOnceEach, LONGEST_TICKED, ONCE_EACH, tickedStepSchema } from './ticked-steps.ts';
import {
  joinsSchema,
  PUMP_BALLASTS,
  sectionsSchema,
  tubesSchema,
  vesselsSchema,
} from './rig-facts.ts';
import { paFromMicron } from './units.ts';

/**
 * What the sensor is connected to. No verdict on the system can come from a sensor that sees only
 * a stub of the tool, or that sits on the pump's side of the valve.
 */
export const SENSOR_VIEWS = ['unknown', 'system', 'section', 'stub', 'pump_side'] as const;
export type SensorView = (typeof SENSOR_VIEWS)[number];

/** Whether the valve cores are still in the way between system and hose. */
export const CORE_PLACES = ['unknown', 'in', 'out'] as const;

/** What the compressor is lubricated with: alkylbenzene, polyol ester, polyvinyl ether, polyalkylene glycol. */
export const OIL_TYPES = ['unknown', 'mineral', 'alkylbenzene', 'poe', 'pve', 'pag'] as const;

/** What the system has been through, as far as it says how wet or dirty it may be. */
export const SYSTEM_HISTORIES = [
  'unknown',
  'new',
  'opened',
  'open_for_days',
  'burnt_out',
  'flooded',
] as const;

const pressurePa = z.number().gt(0).max(200_000);
const temperatureC = z.number().min(-80).max(120);
const text = z.string().max(200);
const longText = z.string().max(500);

export const sheetSchema = z.strictObject({
  site: text,
  equipment: text,
  /** What the system is to be charged with, by its number. */
  refrigerant: z.enum(['unknown', ...REFRIGERANT_NUMBERS]),
  /** The pull-down counts as reached below this absolute pressure. */
  targetPa: pressurePa,
  /** Depth to valve off at: below the target, since the hold starts with a small rise. */
  isolateAtPa: pressurePa,
  /** Length of the hold, seconds since isolation. */
  holdS: z.number().min(60).max(86_400),
  /** The pass rule: no more than this at the end of the hold. */
  endLimitPa: pressurePa,
  /** The pass rule: risen by no more than this over the hold. */
  allowedRisePa: pressurePa,
  /** Which rule the hold is judged by; `own` is that of the three fields before and the target. */
  passRule: z.enum(PASS_RULE_IDS),
  /** The gauge's error as a part of its reading, where known (0.1: ten per cent either way). */
  gaugeErrorShare: z.number().min(0).max(0.9).nullable(),
  /** A steady inflow counts as a leak from this rate on. */
  leakLimitPaPerS: z.number().gt(0).max(1000),
  /** Internal volume of what the sensor sees, where known. */
  volumeM3: z.number().gt(0).max(100).nullable(),
  /** Metal temperature, where known. */
  metalTemperatureC: temperatureC.nullable(),
  /** Temperature at the coldest point of the system, where known. */
  coldestTemperatureC: temperatureC.nullable(),
  sensorSees: z.enum(SENSOR_VIEWS),
  /** The pump's free-air displacement, where known. */
  pumpDisplacementM3PerS: z.number().gt(0).max(1).nullable(),
  /** The lowest pressure that the pump reaches by itself, where known. */
  pumpUltimatePa: z.number().gt(0).max(10_000).nullable(),
  /** How long the pump runs on a full battery, s, where it has one and that is known. */
  pumpBatteryS: z.number().gt(0).max(86_400).nullable(),
  /** Inner diameter and length of one hose, where known; all in parallel are alike. */
  hoseBoreM: z.number().min(0.001).max(0.1).nullable(),
  hoseLengthM: z.number().min(0.05).max(100).nullable(),
  hoseCount: z.int().min(1).max(10).nullable(),
  core: z.enum(CORE_PLACES),
  /** What was read during the nitrogen test, and by what. */
  nitrogenReadings: nitrogenReadingsSchema,
  nitrogenGauge: nitrogenGaugeSchema,
  /** Evacuations with nitrogen between them; without any cycle nothing is planned. */
  triplePlan: triplePlanSchema,
  /** Name of the section that the sensor sees, where it is one; empty while nobody said which. */
  seenSection: z.string().max(60),
  /** Volume of sensor, hose and fittings beyond the valve that shuts them off, where known. */
  stubVolumeM3: z.number().gt(0).max(1).nullable(),
  /** Of the equipment. */
  serial: text,
  oil: z.enum(OIL_TYPES),
  systemHistory: z.enum(SYSTEM_HISTORIES),
  /** Of the site above the sea: what the air there weighs follows from it. */
  altitudeM: z.number().min(-500).max(6000).nullable(),
  /** Of the air about the system. */
  ambientTemperatureC: temperatureC.nullable(),
  /** Where the coldest point is. */
  coldestPlace: text,
  /** Who works on it. */
  people: text,
  /** In which order the equipment maker wants the service valves opened. */
  valveOrder: longText,
  tickedSteps: z.array(tickedStepSchema).max(LONGEST_TICKED),
  /** Whether the pump has a gas ballast at all. */
  pumpBallast: z.enum(PUMP_BALLASTS),
  /** As it is written on the pump or in a notebook: a date, or in words. */
  pumpOilChangedOn: text,
  tubes: tubesSchema,
  vessels: vesselsSchema,
  sections: sectionsSchema,
  joins: joinsSchema,
});
export type Sheet = z.infer<typeof sheetSchema>;

/** A change to the sheet: the fields that were entered, and when (data time). */
export const sheetEntrySchema = z.strictObject({
  elapsedS: z.number().min(0),
  fields: sheetSchema.partial(),
});
export type SheetEntry = z.infer<typeof sheetEntrySchema>;

/** What is entered from now on. Facts are read without this: whatever was taken once stays readable. */
export const enteredFieldsSchema = sheetSchema
  .extend({ tickedSteps: sheetSchema.shape.tickedSteps.refine(areOnceEach, ONCE_EACH) })
  .partial();
export const newSheetEntrySchema = z.strictObject({
  ...sheetEntrySchema.shape,
  fields: enteredFieldsSchema,
});

/**
 * What holds until the technician enters something else. 500 micron is the trade's usual target;
 * half of it to valve off at, since a hold that starts at its own limit fails at once. These are
 * settings of ours, not of a standard: the equipment maker's figure comes first.
 */
export const DEFAULT_SHEET: Sheet = {
  site: '',
  equipment: '',
  refrigerant: 'unknown',
  targetPa: paFromMicron(500),
  isolateAtPa: paFromMicron(250),
  holdS: 900,
  endLimitPa: paFromMicron(500),
  allowedRisePa: paFromMicron(200),
  passRule: 'own',
  gaugeErrorShare: null,
  leakLimitPaPerS: paFromMicron(5) / 60,
  volumeM3: null,
  metalTemperatureC: null,
  coldestTemperatureC: null,
  sensorSees: 'unknown',
  pumpDisplacementM3PerS: null,
  pumpUltimatePa: null,
  pumpBatteryS: null,
  hoseBoreM: null,
  hoseLengthM: null,
  hoseCount: null,
  core: 'unknown',
  nitrogenReadings: [],
  nitrogenGauge: USUAL_NITROGEN_GAUGE,
  triplePlan: NO_TRIPLE_PLAN,
  seenSection: '',
  stubVolumeM3: null,
  serial: '',
  oil: 'unknown',
  systemHistory: 'unknown',
  altitudeM: null,
  ambientTemperatureC: null,
  coldestPlace: '',
  people: '',
  valveOrder: '',
  tickedSteps: [],
  pumpBallast: 'unknown',
  pumpOilChangedOn: '',
  tubes: [],
  vessels: [],
  sections: [],
  joins: [],
};

/** What is typed or chosen in a field of a form; the rest has a structure, and a panel of its own. */
export type PlainField = {
  [Field in keyof Sheet]: Sheet[Field] extends string | number | null ? Field : never;
}[keyof Sheet];

/** The sheet as it stands after its entries, the latest entry of a field winning. */
export function sheetFromEntries(entries: readonly SheetEntry[]): Sheet {
  return sheetSchema.parse(
    Object.assign({}, DEFAULT_SHEET, ...entries.map((entry) => entry.fields)),
  );
}
