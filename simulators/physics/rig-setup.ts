/**
 * What a simulated rig is made of. All in SI.
 *
 * A rig is a small network: sections (volumes, with what hides in them) joined by ducts (hoses,
 * lines, cores, valves), one section with the pump. A single system on a hose is the smallest case.
 */
import { z } from 'zod';

const positive = z.number().gt(0);
const nonNegative = z.number().min(0);
/** Position in the rig's list of sections. */
const sectionIndex = z.int().min(0);

/**
 * Water held by a wall, an oil or an insulation, in balance with the vapour above it like gas in a
 * liquid (Henry's law): the pressure of balance is content over capacity. Several of these with a
 * spread of times make rises that level off, and together a slow tail like 1/t.
 */
const reservoirSchema = z.strictObject({
  /** Water held per pascal of vapour pressure, mol/Pa. */
  capacityMolPerPa: positive,
  /** Time in which it would come into balance with a vapour pressure held constant, s. */
  exchangeS: positive,
  /** The vapour pressure with which it is in balance at the start, Pa. */
  startPa: nonNegative,
});

/** A film of 10 µm: 10⁻⁵ m · 1000 kg/m³. Thinner, it is a wetted wall: a reservoir. */
const THINNEST_KG_PER_M2 = 0.01;

/** Free water lying somewhere. */
const puddleSchema = z
  .strictObject({
    waterKg: positive,
    /** Free surface, m². */
    areaM2: positive,
    /**
     * The share of the greatest possible evaporation (Hertz–Knudsen) that really takes place: an oil
     * film and the vapour's way out of a tube hold it back.
     */
    evaporationShare: z.number().gt(0).max(1),
    /** Heat that the metal gives to the water per kelvin of difference, W/K. */
    metalConductanceWPerK: nonNegative,
  })
  .refine(({ waterKg, areaM2 }) => waterKg >= THINNEST_KG_PER_M2 * areaM2, {
    message: 'a film of water thinner than 10 µm is no puddle: describe it as a reservoir',
  });
export type PuddleSetup = z.infer<typeof puddleSchema>;

const sectionSchema = z.strictObject({
  name: z.string().min(1),
  volumeM3: positive,
  /** Partial pressures at the start, Pa. */
  airPa: nonNegative,
  waterPa: nonNegative,
  metalTemperatureK: positive,
  /** Air from outside into a vacuum, Pa·m³/s. */
  leakPaM3PerS: nonNegative,
  reservoirs: z.array(reservoirSchema),
  puddle: puddleSchema.nullable(),
});
export type SectionSetup = z.infer<typeof sectionSchema>;

const ductSchema = z.strictObject({
  between: z.tuple([sectionIndex, sectionIndex]),
  diameterM: positive,
  lengthM: positive,
  /** Opening of the valve core left in the way, or null where it was taken out. */
  coreDiameterM: positive.nullable(),
  /** Whether this is the way that isolation shuts. */
  isolationValve: z.boolean(),
});
export type DuctSetup = z.infer<typeof ductSchema>;

const pumpSchema = z.strictObject({
  section: sectionIndex,
  /** Free-air displacement, m³/s. */
  displacementM3PerS: positive,
  /** Ultimate pressure, at which the net speed falls to zero, Pa. */
  ultimatePa: nonNegative,
  /** What an open gas ballast adds to the ultimate pressure, Pa. */
  ballastPa: nonNegative,
  /** Air that comes back through the stopped pump, Pa·m³/s; 0 for a check valve that shuts. */
  stoppedInflowPaM3PerS: nonNegative,
});
export type PumpSetup = z.infer<typeof pumpSchema>;

export const rigSetupSchema = z
  .strictObject({
    /** The gas is taken to have the metal's temperature throughout, K. */
    gasTemperatureK: positive,
    sections: z.array(sectionSchema).min(1),
    ducts: z.array(ductSchema),
    pump: pumpSchema,
  })
  .refine(
    ({ sections, ducts, pump }) =>
      [pump.section, ...ducts.flatMap(({ between }) => between)].every(
        (index) => index < sections.length,
      ),
    { message: 'a duct or the pump names a section that is not there' },
  );
export type RigSetup = z.infer<typeof rigSetupSchema>;
