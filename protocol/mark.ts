/** A mark: a dated event of the job, set by hand, by a rehearsal's helper or by an imported file. */
import { z } from 'zod';

/** Events that a rig or a technician can bring about. A mark by hand overrides what the curve says. */
export const MARK_KINDS = [
  'pump_on',
  'pump_off',
  'ballast_opened',
  'ballast_closed',
  'isolated',
  'reopened',
  'nitrogen_break',
  'cores_out',
  'oil_changed',
  'battery_changed',
  'joints_tightened',
  'sections_shut',
  'sections_opened',
  'stub_shut',
  'stub_opened',
  'part_seen',
  'cores_in',
  'sensor_isolated',
  'charge_released',
  'job_begun',
  'note',
] as const;
export type MarkKind = (typeof MARK_KINDS)[number];

/** The bridge itself notes what became of a recording: the computer slept, the record was damaged. */
export const MARK_AUTHORS = ['hand', 'rehearsal', 'import', 'bridge'] as const;

/** A mark as it is entered. */
export const newMarkSchema = z.strictObject({
  kind: z.enum(MARK_KINDS),
  /** Data time of the event: seconds since the recording began. */
  elapsedS: z.number().min(0),
  /** A remark, in the technician's own words. */
  text: z.string().max(500).default(''),
});
export type NewMark = z.infer<typeof newMarkSchema>;

export const markSchema = newMarkSchema.extend({
  id: z.int().min(1),
  madeBy: z.enum(MARK_AUTHORS),
});
export type Mark = z.infer<typeof markSchema>;
