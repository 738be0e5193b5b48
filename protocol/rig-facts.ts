/**
 * What the technician knows of the system's inside: lines, coils and vessels, the sections that can be shut off, and
 * what joins them. Entered as wholes on the job sheet; each row may be left half empty.
 */
import { z } from 'zod';

/** Of a section; tubes, vessels and joins name it. */
const sectionName = z.string().max(60);
/** Bounds that no system of the trade goes beyond. */
const MOST_ROWS = 40;

export const TUBE_ROLES = ['gas', 'liquid', 'suction', 'discharge', 'other'] as const;

const tubeSchema = z
  .strictObject({
    role: z.enum(TUBE_ROLES),
    outerDiameterM: z.number().min(0.002).max(0.3),
    wallM: z.number().min(0.0001).max(0.02),
    lengthM: z.number().gt(0).max(2000),
    /** Empty: the section that the hose is on. */
    section: sectionName,
  })
  .refine(({ outerDiameterM, wallM }) => 2 * wallM < outerDiameterM, {
    message: 'the wall is thicker than the tube: enter the outer diameter, and one wall',
  });
export type Tube = z.infer<typeof tubeSchema>;

export const VESSEL_KINDS = [
  'indoor_coil',
  'outdoor_coil',
  'compressor',
  'accumulator',
  'receiver',
  'filter_drier',
  'other',
] as const;
export type VesselKind = (typeof VESSEL_KINDS)[number];

/** By its volume, by the charge that it is made for, or as such a part usually is. */
const vesselSizeSchema = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('volume'), volumeM3: z.number().gt(0).max(100) }),
  z.strictObject({
    by: z.literal('charge'),
    chargeKg: z.number().gt(0).max(100_000),
    refrigerant: z.string().min(1).max(20),
  }),
  z.strictObject({ by: z.literal('usual') }),
]);

const vesselSchema = z.strictObject({
  kind: z.enum(VESSEL_KINDS),
  size: vesselSizeSchema,
  section: sectionName,
});
export type Vessel = z.infer<typeof vesselSchema>;

const sectionSchema = z.strictObject({
  name: sectionName.min(1),
  /** What it was called until this list was entered, where it got another name with it. */
  was: sectionName.min(1).optional(),
  /** Where known as a whole; null: by its tubes and vessels. */
  volumeM3: z.number().gt(0).max(100).nullable(),
  /** Pump and hose are connected here. */
  hoseHere: z.boolean(),
});
export type RigSection = z.infer<typeof sectionSchema>;

export const JOIN_KINDS = [
  'open_line',
  'service_valve',
  'branch_valve',
  'expansion_valve',
  'reversing_valve',
  'solenoid',
  'check_valve',
] as const;

export const JOIN_STATES = ['unknown', 'open', 'closed'] as const;
export type JoinState = (typeof JOIN_STATES)[number];

const joinSchema = z.strictObject({
  kind: z.enum(JOIN_KINDS),
  between: z.tuple([sectionName.min(1), sectionName.min(1)]),
  state: z.enum(JOIN_STATES),
});
export type Join = z.infer<typeof joinSchema>;

export const tubesSchema = z.array(tubeSchema).max(MOST_ROWS);
export const vesselsSchema = z.array(vesselSchema).max(MOST_ROWS);
export const sectionsSchema = z
  .array(sectionSchema)
  .max(MOST_ROWS)
  .refine((sections) => new Set(sections.map(({ name }) => name)).size === sections.length, {
    message: 'two sections have the same name: give each its own',
  })
  .refine((sections) => sections.filter(({ hoseHere }) => hoseHere).length <= 1, {
    message: 'the hose is on one section only',
  });
export const joinsSchema = z.array(joinSchema).max(MOST_ROWS);

export const PUMP_BALLASTS = ['unknown', 'yes', 'no'] as const;
