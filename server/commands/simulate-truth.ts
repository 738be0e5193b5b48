/** A line of `truth.jsonl`: what was really so in one simulated case. SI units, times on the data's clock. */
import { z } from 'zod';
import { REHEARSAL_CAUSES } from '../../protocol/api.ts';
import { MARK_KINDS } from '../../protocol/mark.ts';

const seconds = z.number().min(0);
const pascal = z.number().min(0);

const momentSchema = z.strictObject({
  elapsed_s: seconds,
  /** There really, where the sensor sits. */
  true_pa: pascal,
  /** What the sensor would show without noise and steps; null: over range. */
  shown_pa: pascal.nullable(),
});
export type TruthMoment = z.infer<typeof momentSchema>;

export const truthLineSchema = z.strictObject({
  /** In the folder of the truth file. */
  file: z.string(),
  scenario: z.string(),
  seed: z.int(),
  cause: z.enum(REHEARSAL_CAUSES),
  /** Steady inflow into what the sensor sees once valved off, over its volume, everything as found. */
  leak_pa_per_s: z.number().min(0),
  /** That volume. */
  volume_m3: z.number().gt(0),
  /** All the water in the rig. */
  water_kg_at_start: z.number().min(0),
  /** From when on the curve differed from that of the same job in order; null: it never did. */
  told_s: seconds.nullable(),
  /** Whether the gas ballast stood open before anybody touched it. */
  ballast_open_at_start: z.boolean(),
  /** All that was done, also what the CSV's column `event` has no word for. */
  marks: z.array(z.strictObject({ kind: z.enum(MARK_KINDS), elapsed_s: seconds })),
  /** First time at which the true pressure was at the target or below; null: it never was. */
  target_reached_s: seconds.nullable(),
  /** The last valving off: what analyse judges; null: it never was. */
  at_isolation: momentSchema.nullable(),
  /** The length of a hold after that; null where it was not held so long. */
  end_of_hold: momentSchema.nullable(),
  /** Of the metal where the sensor sits, at the first and the last reading. */
  temperature_c: z.strictObject({ start: z.number(), end: z.number() }),
  /** Time of the last reading, heard or not. */
  ended_s: seconds,
});
export type TruthLine = z.infer<typeof truthLineSchema>;
