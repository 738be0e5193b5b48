/** A recording: a stretch of readings on one time axis, from one or more sensors. */
import { z } from 'zod';
import { sensorLabelSchema } from './sensor-label.ts';

/**
 * Where a recording's readings come from: heard from a sensor, simulated, read in from a file, or
 * typed in by hand. None of them can be passed off as another.
 */
export const ORIGINS = ['sensor', 'rehearsal', 'import', 'typed_in'] as const;
export type Origin = (typeof ORIGINS)[number];

/** What a rehearsal's sensor is known by. */
export const REHEARSAL_SENSOR_ID = 'rehearsal-sensor';

export const sensorIdentitySchema = z.strictObject({
  /** Stable within this installation: the peripheral's id, or the source's own. */
  id: z.string().min(1).max(100),
  name: z.string().max(100),
  manufacturer: z.string().max(100).nullable(),
  model: z.string().max(100).nullable(),
  serial: z.string().max(100).nullable(),
  firmware: z.string().max(100).nullable(),
});
export type SensorIdentity = z.infer<typeof sensorIdentitySchema>;

const recordedSensorSchema = sensorIdentitySchema.extend({
  /**
   * What the technician says of it, as it stood when the recording ended: a name or place given later
   * changes no recording that is over. Null where nothing was said, and where there is no sensor: in
   * a rehearsal and in a file.
   */
  label: sensorLabelSchema.nullable(),
});
export type RecordedSensor = z.infer<typeof recordedSensorSchema>;

export const recordingSchema = z.strictObject({
  id: z.int().min(1),
  origin: z.enum(ORIGINS),
  /**
   * Wall-clock time of data time zero, milliseconds since 1970 UTC. For labels only. A file does not
   * say when it began: for an import this is when it was read in.
   */
  startedAtMs: z.int(),
  /** For a rehearsal, its scenario (rehearsal-title.ts); for an import, its file's name; otherwise empty. */
  title: z.string().max(200),
  /** The sensors heard so far; a reading's `channel` is a position in this list. */
  sensors: z.array(recordedSensorSchema).max(256),
  /** True while readings can still arrive. */
  open: z.boolean(),
});
export type Recording = z.infer<typeof recordingSchema>;

/** Ends the name of a sensor that a computer plays. */
export const SIMULATED_ENDING = ', simulated';

/** Whether any of it was played and not measured: such a recording is no proof of a job. */
export function isSimulated({ origin, sensors }: Pick<Recording, 'origin' | 'sensors'>): boolean {
  return origin === 'rehearsal' || sensors.some(({ name }) => name.endsWith(SIMULATED_ENDING));
}
