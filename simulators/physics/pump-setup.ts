/** What a simulated vacuum pump is made of. All in SI. */
import { z } from 'zod';

const positive = z.number().gt(0);
const nonNegative = z.number().min(0);

const oilSchema = z.strictObject({
  /** What dirt and age add to the ultimate pressure, Pa; gone with an oil change. */
  foulPa: nonNegative,
  /** Water that it can dissolve per pascal of what that adds to the ultimate pressure, mol/Pa. */
  waterMolPerPa: positive,
  /** What the water in it adds at the start, Pa. */
  waterStartPa: nonNegative,
  /** Time in which the open gas ballast clears the water out again, s. */
  clearingS: positive,
  /** Time in which it dries by itself, from the warm oil box, while the pump runs, s. */
  dryingS: positive,
});

export const pumpSchema = z.strictObject({
  /** Where it draws: position in the rig's list of sections. */
  section: z.int().min(0),
  /** Free-air displacement, m³/s. */
  displacementM3PerS: positive,
  /** Ultimate pressure when warm, with clean dry oil: the net speed there falls to zero, Pa. */
  ultimatePa: nonNegative,
  /** What an open gas ballast adds to the ultimate pressure, Pa. */
  ballastPa: nonNegative,
  /** Air that an open gas ballast lets in, as a share of the displacement at atmospheric pressure. */
  ballastShare: z.number().min(0).max(0.5),
  /** Air that comes back through the stopped pump, Pa·m³/s; 0 for a check valve that shuts. */
  stoppedInflowPaM3PerS: nonNegative,
  oil: oilSchema,
  /** How much warmer than its surroundings it runs, K. */
  runsWarmerK: nonNegative,
  /** Time constant with which it warms, s. */
  warmingS: positive,
  /** By how many times its ultimate pressure is higher while it is cold. */
  coldFactor: z.number().min(1),
  /** How long a full battery lasts, s; null: mains. */
  batteryS: positive.nullable(),
});
export type PumpSetup = z.infer<typeof pumpSchema>;
