/** What a rehearsal is made of. */
import { z } from 'zod';
import { REHEARSAL_ACTIONS, REHEARSAL_CAUSES } from '../../protocol/api.ts';
import { rigSetupSchema } from '../physics/rig-setup.ts';
import { sensorSetupSchema } from '../physics/sensor.ts';

/** When the helper takes the next step of the script; times count from the step before. */
const momentSchema = z.union([
  /** So much later. */
  z.strictObject({ afterS: z.number().min(0) }),
  /**
   * Once the sensor has shown less than that for so long without a break; `orAfterS` later he gives
   * up waiting, where that is given.
   */
  z.strictObject({
    belowPa: z.number().gt(0),
    heldS: z.number().min(0),
    orAfterS: z.number().gt(0).optional(),
  }),
]);

const scriptStepSchema = z.strictObject({
  when: momentSchema,
  do: z.enum([...REHEARSAL_ACTIONS, 'end']),
});
export type ScriptStep = z.infer<typeof scriptStepSchema>;

/** Rig, and the position of the sensor's section in its list. */
const placedSchema = z.strictObject({ rig: rigSetupSchema, sensorSection: z.int().min(0) });
export type Placed = z.infer<typeof placedSchema>;

const radioSchema = z.strictObject({
  /** Stretches in which no reading gets through; the first one always does and begins the recording. */
  silences: z.array(z.strictObject({ fromS: z.number().gt(0), durationS: z.number().gt(0) })),
  /** Moments at which the sensor starts anew: its own clock and count begin again. */
  restartsAtS: z.array(z.number().gt(0)),
  batteryPercent: z.number().min(0).max(100),
  batteryPercentPerHour: z.number().min(0),
});

export const scenarioSchema = placedSchema
  .extend({
    /** What a trainee sees beforehand: nothing here may give the cause away, the name included. */
    card: z.strictObject({
      /** Short, lower case, with hyphens: what one asks for it by. */
      name: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/u),
      place: z.string().min(1).max(100),
      situation: z.string().min(1).max(500),
    }),
    cause: z.enum(REHEARSAL_CAUSES),
    /** What was really wrong, in a sentence or two, for after the call. */
    truth: z.string().min(1),
    /** Which part of the curve told, and what to do about it. */
    tells: z.string().min(1),
    /** The same job with the cause taken away: what the curve is held against after the call. */
    inOrder: placedSchema,
    sensor: sensorSetupSchema,
    radio: radioSchema,
    /** Whether the gas ballast stands open at the start. */
    ballastOpen: z.boolean(),
    /** What a nitrogen break fills to, Pa absolute. */
    nitrogenPa: z.number().gt(1000).max(500_000),
    /** What a helper does, in order. */
    script: z.array(scriptStepSchema).min(1),
  })
  .refine(
    ({ rig, sensorSection, inOrder }) =>
      [{ rig, sensorSection }, inOrder].every(
        (placed) => placed.sensorSection < placed.rig.sections.length,
      ),
    { message: 'the sensor sits in a section that is not there' },
  );
export type Scenario = z.infer<typeof scenarioSchema>;

/** Hears every reading, never restarts. */
export const STEADY_RADIO: Scenario['radio'] = {
  silences: [],
  restartsAtS: [],
  batteryPercent: 90,
  batteryPercentPerHour: 1,
};
