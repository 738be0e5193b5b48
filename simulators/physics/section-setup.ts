/** What one volume of a rig holds, and what comes into it from hidden places. All in SI. */
import { z } from 'zod';
import { GASES } from './gases.ts';

const positive = z.number().gt(0);
const nonNegative = z.number().min(0);

export const perGasSchema = z.strictObject({
  air: nonNegative,
  water: nonNegative,
  refrigerant: nonNegative,
});

/**
 * Water or refrigerant held by a wall, an oil or an insulation, in balance with the gas above it as
 * in a liquid (Henry's law): the pressure of balance is content over capacity. Several of these with
 * a spread of times make rises that level off, and together a slow tail like 1/t (walls) or 1/√t
 * (diffusion out of oil and rubber).
 */
const reservoirSchema = z.strictObject({
  gas: z.enum(GASES),
  /** Held per pascal of partial pressure, mol/Pa, at the temperature of the start. */
  capacityMolPerPa: positive,
  /** Time in which it would come into balance with a pressure held constant, s. */
  exchangeS: positive,
  /** The partial pressure with which it is in balance at the start, Pa. */
  startPa: nonNegative,
});
export type ReservoirSetup = z.infer<typeof reservoirSchema>;

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

/** Gas that gets in. */
const inflowSchema = z.strictObject({
  name: z.string().min(1),
  /** Into a vacuum, Pa·m³/s. */
  intoVacuumPaM3PerS: nonNegative,
  /** `outside`: humid air. `charge`: refrigerant, past a valve from the charged side. */
  from: z.enum(['outside', 'charge']),
  /**
   * `opening`: constant while choked. `permeation`: through rubber, in proportion to the difference
   * of pressure.
   */
  law: z.enum(['opening', 'permeation']),
  /** Pressure on the other side where that is a charge, Pa. */
  chargePa: nonNegative,
  /** Whether tightening a joint ends it. */
  endsWhenTightened: z.boolean(),
});
export type InflowSetup = z.infer<typeof inflowSchema>;

export const sectionSchema = z.strictObject({
  name: z.string().min(1),
  volumeM3: positive,
  /** Partial pressures at the start, Pa. */
  startPa: perGasSchema,
  /** At the start; it then warms and cools with the surroundings. */
  metalTemperatureK: positive,
  inflows: z.array(inflowSchema),
  reservoirs: z.array(reservoirSchema),
  puddle: puddleSchema.nullable(),
});
export type SectionSetup = z.infer<typeof sectionSchema>;
