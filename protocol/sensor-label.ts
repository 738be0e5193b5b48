/** What a technician says of a sensor: a name of their own for it, and where it sits. */
import { z } from 'zod';

/** Where a sensor is connected, as far as it was said. */
export const SENSOR_PLACES = ['unknown', 'system', 'pump'] as const;
export type SensorPlace = (typeof SENSOR_PLACES)[number];

/** Fits a line of the chart's letters; a setting of ours. */
export const LONGEST_SENSOR_NAME = 40;

/** Characters that a screen can't show, or that turn the direction of what comes after them. */
const UNSHOWABLE = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u;

const said = {
  /** Empty: the sensor keeps the name that it gives itself. */
  name: z
    .string()
    .trim()
    .max(LONGEST_SENSOR_NAME)
    .refine((name) => !UNSHOWABLE.test(name), { message: 'must be plain text in one line' }),
  place: z.enum(SENSOR_PLACES),
  /** The step of its display, Pa, of a gauge that somebody reads; null where that was not said. */
  displayStepPa: z.number().gt(0).max(10_000).nullable(),
};

export const sensorLabelSchema = z.strictObject({
  ...said,
  /** When it was said: wall-clock milliseconds since 1970 UTC. */
  givenAtMs: z.int(),
});
export type SensorLabel = z.infer<typeof sensorLabelSchema>;

/** A label as it is entered. */
export const newSensorLabelSchema = z.strictObject({
  /** As in a sensor's identity. */
  sensorId: z.string().min(1).max(100),
  ...said,
});
export type NewSensorLabel = z.infer<typeof newSensorLabelSchema>;

/** POST /api/sensor-calibrations: when a sensor was last calibrated, as its certificate has it. */
export const newCalibrationSchema = z.strictObject({
  sensorId: z.string().min(1).max(100),
  /** A day, as ISO 8601 writes it. */
  calibratedOn: z.iso.date(),
});
export type NewCalibration = z.infer<typeof newCalibrationSchema>;

export const calibrationSchema = newCalibrationSchema.extend({
  /** When it was said: wall-clock milliseconds since 1970 UTC. */
  givenAtMs: z.int(),
});
export type Calibration = z.infer<typeof calibrationSchema>;
