/** What a rehearsal is made of. */
import { z } from 'zod';
import { REHEARSAL_ACTIONS } from '../../protocol/api.ts';
import { rigSetupSchema } from '../physics/rig-setup.ts';
import { sensorSetupSchema } from '../physics/sensor.ts';

/** When the helper takes the next step of the script; times count from the step before. */
const momentSchema = z.union([
  /** So much later. */
  z.strictObject({ afterS: z.number().min(0) }),
  /** Once the sensor has shown less than that for so long without a break. */
  z.strictObject({ belowPa: z.number().gt(0), heldS: z.number().min(0) }),
]);

const scriptStepSchema = z.strictObject({
  when: momentSchema,
  do: z.enum([...REHEARSAL_ACTIONS, 'end']),
});
export type ScriptStep = z.infer<typeof scriptStepSchema>;

export const scenarioSchema = z.strictObject({
  /** What a trainee sees beforehand: nothing here may give the cause away, the name included. */
  card: z.strictObject({
    /** Short, lower case, with hyphens: what one asks for it by. */
    name: z.string().regex(/^[a-z]+(-[a-z]+)*$/u),
    place: z.string().min(1).max(100),
    situation: z.string().min(1).max(500),
  }),
  /** What was really wrong, in a sentence or two, for after the call. */
  truth: z.string().min(1),
  rig: rigSetupSchema,
  /** Where the sensor sits: position in the rig's list of sections. */
  sensorSection: z.int().min(0),
  sensor: sensorSetupSchema,
  /** Whether the gas ballast stands open at the start. */
  ballastOpen: z.boolean(),
  /** What a helper does, in order. */
  script: z.array(scriptStepSchema).min(1),
});
export type Scenario = z.infer<typeof scenarioSchema>;
