/**
 * What a simulated rig is made of. All in SI.
 *
 * A rig is a small network: sections (volumes, with what hides in them) joined by ducts (hoses,
 * lines, cores, valves), one section with the pump. A single system on a hose is the smallest case.
 */
import { z } from 'zod';
import { pumpSchema } from './pump-setup.ts';
import { sectionSchema } from './section-setup.ts';
import { surroundingsSchema } from './surroundings.ts';

const positive = z.number().gt(0);
/** Position in the rig's list of sections. */
const sectionIndex = z.int().min(0);

const ductSchema = z.strictObject({
  between: z.tuple([sectionIndex, sectionIndex]),
  diameterM: positive,
  lengthM: positive,
  /** So many alike, side by side. */
  count: z.int().min(1),
  /** Opening of a valve core in the way, or null where there is none; taken out by the technician. */
  coreDiameterM: positive.nullable(),
  /** The valve that shuts it, by its name in the rig's list; null: always open. */
  valve: z.string().min(1).nullable(),
  /** Lets gas through from the first section to the second only: a check valve. */
  oneWay: z.boolean(),
});
export type DuctSetup = z.infer<typeof ductSchema>;

/** A valve and how far open it stands at the start: 0 shut to 1 fully open. */
const valveSchema = z.strictObject({
  name: z.string().min(1),
  opening: z.number().min(0).max(1),
});

/** Where nitrogen can be let in, through a regulator. */
const nitrogenSchema = z.strictObject({
  section: sectionIndex,
  /** Of regulator and hose, m³/s. */
  conductanceM3PerS: positive,
});

export const rigSetupSchema = z
  .strictObject({
    surroundings: surroundingsSchema,
    sections: z.array(sectionSchema).min(1),
    ducts: z.array(ductSchema),
    valves: z.array(valveSchema),
    pump: pumpSchema,
    nitrogen: nitrogenSchema.nullable(),
  })
  .refine(
    ({ sections, ducts, pump, nitrogen }) =>
      [
        pump.section,
        ...(nitrogen ? [nitrogen.section] : []),
        ...ducts.flatMap(({ between }) => between),
      ].every((index) => index < sections.length),
    { message: 'a duct, the pump or the nitrogen names a section that is not there' },
  )
  .refine(
    ({ ducts, valves }) =>
      ducts.every(({ valve }) => valve === null || valves.some(({ name }) => name === valve)),
    { message: 'a duct names a valve that is not in the list' },
  );
export type RigSetup = z.infer<typeof rigSetupSchema>;
