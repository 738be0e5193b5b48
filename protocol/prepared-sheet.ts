/**
 * A job sheet that was filled in before there was anything to record: in the van, the evening before. It is kept by
 * itself until a recording takes it over.
 */
import { z } from 'zod';
import { enteredFieldsSchema, sheetSchema } from './sheet.ts';

/** That wait for their job at once: more than a week of jobs in one van. A setting of ours. */
export const MOST_UNUSED = 50;

const preparedNumber = z.int().min(1);

/** POST /api/prepared-sheets. `prepared`: which one is changed; null: it is a new one. */
export const newPreparedSheetSchema = z.strictObject({
  prepared: preparedNumber.nullable(),
  /** All that stands on it: what was there before is replaced as a whole. */
  fields: enteredFieldsSchema,
});
export type NewPreparedSheet = z.infer<typeof newPreparedSheetSchema>;

/** As it stands now, and whether a job has taken it over. */
export const preparedSheetSchema = z.strictObject({
  prepared: preparedNumber,
  fields: sheetSchema.partial(),
  /** The recording that took it over, and at which data time; null: none has. */
  usedIn: z.int().min(1).nullable(),
  usedS: z.number().min(0).nullable(),
  /** Of the latest change, wall-clock milliseconds since 1970 UTC. */
  atMs: z.int(),
});
export type PreparedSheet = z.infer<typeof preparedSheetSchema>;

/** GET /api/prepared-sheets: the latest first. */
export const preparedSheetListSchema = z.strictObject({ sheets: z.array(preparedSheetSchema) });

/** POST /api/prepared-sheets/:prepared/use: onto the sheet of a job, where that begins. */
export const usePreparedSheetSchema = z.strictObject({
  recordingId: z.int().min(1),
  elapsedS: z.number().min(0),
});
export type UsePreparedSheet = z.infer<typeof usePreparedSheetSchema>;
