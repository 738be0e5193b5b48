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
  /** Data time at which it was called tight and dry, unless that was taken back with the hold still on. */
  passedS: z.number().nullable().default(null),
  /** Whether it was said that the vacuum of it is being lost. */
  lost: z.boolean().default(false),
  /** How often another verdict on it was announced. */
  changes: z.int().min(0).default(0),
});
export type HoldAlerts = z.infer<typeof holdAlertsSchema>;

/** A depth that was announced: at which data time, and which one. */
const depthSchema = z.object({ atS: z.number(), limitPa: z.number() });
export type GivenDepth = z.infer<typeof depthSchema>;

const standingSchema = z.object({
  /** Since when it has been so without a break, data time; null while it is not. */
  sinceS: z.number().nullable(),
  given: z.boolean(),
  /** Once given: since when it is no longer so; null while it is. */
  awayS: z.number().nullable(),
});
export type Standing = z.infer<typeof standingSchema>;
export const NOT_STANDING: Standing = { sinceS: null, given: false, awayS: null };

const presentSchema = z.object({
  target: depthSchema.nullable(),
  depth: depthSchema.nullable(),
  levelling: standingSchema,
  ballast: standingSchema,
  pumpBattery: standingSchema,
  holds: z.array(holdAlertsSchema),
});
export type GivenAlerts = z.infer<typeof presentSchema>;

export const NO_ALERTS_GIVEN: GivenAlerts = {
  target: null,
  depth: null,
  levelling: NOT_STANDING,
  ballast: NOT_STANDING,
  pumpBattery: NOT_STANDING,
  holds: [],
};

/** Its moment is not known: not announced again in that recording. */
const LONG_AGO: GivenDepth = { atS: Number.MAX_SAFE_INTEGER, limitPa: 0 };
const givenOnce = (target: boolean) => ({ target: target ? LONG_AGO : null });

/** Before there was more to announce than the target and verdicts. */
const secondSchema = z
  .object({ target: z.boolean(), holds: z.array(holdAlertsSchema) })
  .transform(({ target, holds }) => ({ ...NO_ALERTS_GIVEN, ...givenOnce(target), holds }));

/** As long as a hold had one alert at most, the moment of its isolation was all there was to keep. */
const firstSchema = z
  .object({ target: z.boolean(), verdictsSinceS: z.array(z.number()) })
  .transform(({ target, verdictsSinceS }) => ({
    ...NO_ALERTS_GIVEN,
    ...givenOnce(target),
    holds: verdictsSinceS.map((sinceS) => ({
      sinceS,
      announced: null,
      changing: null,
      passedS: null,
      lost: false,
      changes: 0,
    })),
  }));

export const givenAlertsSchema = z.union([presentSchema, secondSchema, firstSchema]);
