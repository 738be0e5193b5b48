/** What was already announced for a recording, as this browser remembers it. */
import { z } from 'zod';

const verdict = z.enum(['tight_dry', 'moisture', 'leak', 'leak_and_moisture', 'undecided']);

const holdAlertsSchema = z.object({
  /** Isolation, data time. */
  sinceS: z.number(),
  /** The verdict announced last; null: one was, before it was remembered which. */
  announced: verdict.nullable(),
  /** The present verdict where it is another one, and since when (data time) it is. */
  changing: z.object({ verdict, fromS: z.number() }).nullable(),
});
export type HoldAlerts = z.infer<typeof holdAlertsSchema>;

const presentSchema = z.object({ target: z.boolean(), holds: z.array(holdAlertsSchema) });
export type GivenAlerts = z.infer<typeof presentSchema>;

/** As long as a hold had one alert at most, the moment of its isolation was all there was to keep. */
const firstSchema = z
  .object({ target: z.boolean(), verdictsSinceS: z.array(z.number()) })
  .transform(({ target, verdictsSinceS }) => ({
    target,
    holds: verdictsSinceS.map((sinceS) => ({ sinceS, announced: null, changing: null })),
  }));

export const givenAlertsSchema = z.union([presentSchema, firstSchema]);

export const NO_ALERTS_GIVEN: GivenAlerts = { target: false, holds: [] };
