/** Readings typed in by hand, for a gauge without a radio, and putting a slip right. */
import { z } from 'zod';

/** What the gauge that somebody reads is known by: there is one at a time. */
export const TYPED_IN_SENSOR_ID = 'typed-in';

/** As far back as a reading may be typed in afterwards, s: less than the silence that ends a visit. */
export const LONGEST_AGO_S = 11 * 3600;

/** Absolute. Two atmospheres are beyond any vacuum sensor: more is a wrong unit. */
const pressurePa = z.number().min(0).max(200_000);

/**
 * POST /api/typed-in: a number read off a gauge that has no radio. It becomes a reading and is
 * answered by the recording, which begins with the first one. POST /api/typed-in/end ends that
 * recording and is answered by it.
 */
export const typedReadingSchema = z.strictObject({
  pressurePa,
  /** Of the metal where the sensor is, where somebody measured it. */
  temperatureC: z.number().min(-80).max(120).nullable(),
  /** How long before its arrival it was read, s. Not before the recording began. */
  agoS: z.number().min(0).max(LONGEST_AGO_S).default(0),
});
export type TypedReading = z.infer<typeof typedReadingSchema>;

/**
 * POST /api/typed-in/corrections: a slip in the typed recording that is running. The reading stays in
 * the record as it was typed; that it was taken back is a fact of its own, and what should have been
 * typed is another reading at the same moment. Answered by the recording.
 */
export const typedCorrectionSchema = z.strictObject({
  /** Of the reading that is taken back. */
  index: z.int().min(1),
  /** What it should have been; null: there was nothing to read. */
  pressurePa: pressurePa.nullable(),
});
export type TypedCorrection = z.infer<typeof typedCorrectionSchema>;

/** A reading that was taken back: no curve, conclusion or export has it any more. */
export const takenBackSchema = z.strictObject({
  index: z.int().min(1),
  elapsedS: z.number().min(0),
  pressurePa: z.number().nullable(),
  /** What was typed in its place, or null. */
  insteadPa: z.number().nullable(),
  /** Wall-clock milliseconds since 1970 UTC. */
  atMs: z.int(),
});
export type TakenBack = z.infer<typeof takenBackSchema>;
