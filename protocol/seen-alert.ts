/** That somebody has seen an alert: a fact of its recording, so that no other page calls it out. */
import { z } from 'zod';

/** What an alert is known by on every page: its sensor's channel and what it says, '0/verdict/leak'. */
const alert = z.string().regex(/^[a-z0-9][a-z0-9_:./-]{0,119}$/u);

/** POST /api/recordings/:id/seen-alerts, answered by the fact once it is durable. */
export const newSeenAlertSchema = z.strictObject({
  alert,
  /**
   * Data time up to which it is seen, s: what says the same and began later is another alert. Pages come
   * to an alert at moments of their own, so that the moment of an alert itself tells nothing apart.
   */
  untilS: z.number().min(0),
});
export type NewSeenAlert = z.infer<typeof newSeenAlertSchema>;

export const seenAlertSchema = newSeenAlertSchema.extend({
  /** Wall-clock milliseconds since 1970 UTC. */
  atMs: z.int(),
});
export type SeenAlert = z.infer<typeof seenAlertSchema>;
