/** What a source of readings is doing, as the screen shows it. */
import { z } from 'zod';
import { PROBLEM_CODES } from './problems.ts';
import { sensorIdentitySchema } from './recording.ts';

/**
 * `found`: heard, and its turn to be connected comes. `weak`: live, with a signal that is about to break.
 * `backfilling`: live, while readings that were missed are fetched. `stale`: connected, but silent for
 * longer than its interval allows. `gone`: lost for so long that nobody waits for it.
 */
const SOURCE_PHASES = [
  'starting',
  'searching',
  'found',
  'connecting',
  'live',
  'weak',
  'backfilling',
  'stale',
  'lost',
  'gone',
  'paused',
  'finished',
  'unavailable',
] as const;
export type SourcePhase = (typeof SOURCE_PHASES)[number];

const condition = {
  phase: z.enum(SOURCE_PHASES),
  /** Since when it has been in this phase: wall-clock milliseconds since 1970 UTC. */
  sinceMs: z.int(),
  /** Why it is in this phase, where there is something to say or do about it. */
  problem: z.enum(PROBLEM_CODES).nullable(),
  batteryPercent: z.number().min(0).max(100).nullable(),
  signalDbm: z.number().nullable(),
  /** So many readings were missed and can still be fetched; absent: none. */
  missedReadings: z.int().min(0).optional(),
};

const sensorStateSchema = z.strictObject({
  sensorId: sensorIdentitySchema.shape.id,
  /** As it calls itself. */
  name: sensorIdentitySchema.shape.name,
  ...condition,
  /** How much faster than this computer's its clock runs, where that is more than a crystal explains. */
  clockFastPercent: z.number().optional(),
});
export type SensorState = z.infer<typeof sensorStateSchema>;

/** With several sensors, name and condition are those of the sensor that is best off. */
export const sourceStateSchema = z.strictObject({
  id: z.string().min(1).max(100),
  kind: z.enum(['radio', 'rehearsal', 'import', 'typed_in']),
  name: z.string().max(100),
  ...condition,
  /** Data seconds per wall-clock second: 1 for a sensor, up to 120 for a rehearsal. */
  clockRate: z.number().gt(0),
  /** Each sensor heard so far, in any order; empty for a source that is its own only one. */
  sensors: z.array(sensorStateSchema).max(256),
});
export type SourceState = z.infer<typeof sourceStateSchema>;
