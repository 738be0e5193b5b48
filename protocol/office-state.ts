/** Whether the office of several vans is reached, to which readings go; and how much waits for it here. */
import { z } from 'zod';

export const officeStateSchema = z.discriminatedUnion('kind', [
  /** There is none, or it has not been long enough to say. */
  z.strictObject({ kind: z.literal('untold') }),
  z.strictObject({ kind: z.literal('reached') }),
  z.strictObject({
    kind: z.literal('unreached'),
    /** Since when: wall-clock milliseconds since 1970 UTC. */
    sinceMs: z.number(),
    /** Readings that it lacks; they are in the record here. */
    waiting: z.int().min(0),
  }),
]);
export type OfficeState = z.infer<typeof officeStateSchema>;
