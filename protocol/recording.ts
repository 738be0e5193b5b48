/** A recording: a stretch of readings on one time axis, from one or more sensors. */
import { z } from 'zod';
import { sensorLabelSchema } from './sensor-label.ts';

/**
 * Where a recording's readings come from: heard from a sensor, simulated, read in from a file, or
 * typed in by hand. None of them can be passed off as another.
 */
export const ORIGINS = ['sensor', 'rehearsal', 'import', 'typed_in'] as const;
export type Origin = (typeof ORIGINS)[number];

/** Of a recording that came out of another record, by a file or a backup: what it was there. */
export const takenFromSchema = z.strictObject({
  /** Which kind of file it came in. */
  format: z.string().min(1).max(100),
  /** A rehearsal stays one, whichever way it took. */
  origin: z.enum(ORIGINS),
  /** 0: the file does not say; then nor does it say when it began, and it is when it was read in. */
  recordingId: z.int().min(0),
  /** Wall-clock milliseconds since 1970 UTC. */
  startedAtMs: z.int(),
  title: z.string().max(200),
  /** Last hash of its chain there, hexadecimal; empty where there was none. */
  hash: z.string().max(64),
  /** Whether its chain was reckoned anew as it was taken over, and held: of a backup alone it can be. */
  held: z.boolean(),
  /** Of the program that wrote the file. */
  softwareVersion: z.string().max(100),
});
export type TakenFrom = z.infer<typeof takenFromSchema>;

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
  /** The day of its last calibration, as somebody entered it before the recording ended (ISO 8601). */
  calibratedOn: z.string().max(10).nullable(),
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
  /** What it was in the record from which it was taken; null: it was recorded here. */
  takenFrom: takenFromSchema.nullable(),
  /** True while readings can still arrive. */
  open: z.boolean(),
});
export type Recording = z.infer<typeof recordingSchema>;

/** Ends the name of a sensor that a computer plays. */
export const SIMULATED_ENDING = ', simulated';

/** Whether it was a rehearsal, here or where it was taken from. */
function isRehearsed({ origin, takenFrom }: Pick<Recording, 'origin' | 'takenFrom'>): boolean {
  return origin === 'rehearsal' || takenFrom?.origin === 'rehearsal';
}

/** Whether any of it was played and not measured: such a recording is no proof of a job. */
export function isSimulated(
  recording: Pick<Recording, 'origin' | 'sensors' | 'takenFrom'>,
): boolean {
  return (
    isRehearsed(recording) || recording.sensors.some(({ name }) => name.endsWith(SIMULATED_ENDING))
  );
}

/** Whether numbers were typed in by hand, minutes apart: between two of them nothing can be missing. */
export function isTypedIn({ origin, takenFrom }: Pick<Recording, 'origin' | 'takenFrom'>): boolean {
  return origin === 'typed_in' || takenFrom?.origin === 'typed_in';
}

/**
 * Whether the wall clock at the beginning says when a later reading was measured: a file has none, and
 * a rehearsal's time goes as fast as one likes.
 */
export function knowsWallTime(origin: Origin): boolean {
  return origin === 'sensor' || origin === 'typed_in';
}
