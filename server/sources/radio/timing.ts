/** Every duration that the radio waits, in one place; the tests wait less. Milliseconds. */
import { z } from 'zod';

export const radioTimingSchema = z.strictObject({
  /** From its start until the adapter has said what state it is in. */
  adapterMs: z.number().positive(),
  /** From asking for a connection to having it. */
  connectMs: z.number().positive(),
  /** From any request to a sensor or an adapter to its answer. */
  answerMs: z.number().positive(),
  /** For all of these from a connection to listening: nobody else is connected meanwhile. */
  introductionMs: z.number().positive(),
  /** A sensor counts as silent after five of its intervals, and not before this. */
  silenceMs: z.number().positive(),
  /** From silence to a new connection, so that a short pause costs nothing. */
  silenceGraceMs: z.number().positive(),
  /** Between two looks at a sensor's battery. */
  batteryMs: z.number().positive(),
  /** Between two looks at the strength of a sensor's signal. */
  signalMs: z.number().positive(),
  /** While a sensor is connected, the air is searched for others so long … */
  searchMs: z.number().positive(),
  /** … and then left alone so long, since searching takes airtime from the readings. */
  searchRestMs: z.number().positive(),
  /** A sensor that was found and not connected counts as lost when it wasn't heard for so long. */
  foundMs: z.number().positive(),
  /** First wait before a sensor that failed is tried again; see `backoff.ts`. */
  retryMs: z.number().positive(),
  longestRetryMs: z.number().positive(),
  /** The same where the sensor itself says no: that changes slowly, and each try costs the others. */
  longestRefusalMs: z.number().positive(),
  /** Between two signs of life of the process that holds the radio. */
  heartbeatMs: z.number().positive(),
  /** That process is ended when it has given no sign of life for so long. */
  heartbeatLimitMs: z.number().positive(),
  /** An adapter that is off for so long may have been pulled out: only a new process sees it return. */
  adapterOffMs: z.number().positive(),
  /** Between two looks for an adapter where there was none. */
  adapterRetryMs: z.number().positive(),
  /** Between two looks where only a person can help: no Bluetooth, no permission, no library. */
  rareRetryMs: z.number().positive(),
  /** A process that is asked to stop is given so long. */
  stopMs: z.number().positive(),
});
export type RadioTiming = z.infer<typeof radioTimingSchema>;

/** Settings of ours, weighed between patience with a weak signal and patience of the person waiting. */
export const RADIO_TIMING: RadioTiming = {
  adapterMs: 10_000,
  connectMs: 10_000,
  // The profile gives a sensor 5 s; the Attribute Protocol would let it take 30 s (Core Specification,
  // Vol 3, Part F, 3.3.3).
  answerMs: 6000,
  introductionMs: 30_000,
  silenceMs: 5000,
  silenceGraceMs: 5000,
  batteryMs: 5 * 60_000,
  signalMs: 10_000,
  searchMs: 4000,
  searchRestMs: 11_000,
  foundMs: 40_000,
  retryMs: 500,
  longestRetryMs: 15_000,
  longestRefusalMs: 60_000,
  heartbeatMs: 2000,
  heartbeatLimitMs: 8000,
  adapterOffMs: 15_000,
  adapterRetryMs: 5000,
  rareRetryMs: 30_000,
  stopMs: 3000,
};
