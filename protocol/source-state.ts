/** What a source of readings is doing, as the screen shows it. */
import { z } from 'zod';
import { PROBLEM_CODES } from './problems.ts';

/** `stale`: connected, but silent for longer than its interval allows. */
export const SOURCE_PHASES = [
  'starting',
  'searching',
  'connecting',
  'live',
  'stale',
  'lost',
  'paused',
  'finished',
  'unavailable',
] as const;
export type SourcePhase = (typeof SOURCE_PHASES)[number];

export const sourceStateSchema = z.strictObject({
  id: z.string().min(1).max(100),
  kind: z.enum(['radio', 'rehearsal', 'import', 'typed_in']),
  name: z.string().max(100),
  phase: z.enum(SOURCE_PHASES),
  /** Since when it has been in this phase: wall-clock milliseconds since 1970 UTC. */
  sinceMs: z.int(),
  /** Why it is in this phase, where there is something to say or do about it. */
  problem: z.enum(PROBLEM_CODES).nullable(),
  batteryPercent: z.number().min(0).max(100).nullable(),
  signalDbm: z.number().nullable(),
  /** Data seconds per wall-clock second: 1 for a sensor, up to 120 for a rehearsal. */
  clockRate: z.number().gt(0),
});
export type SourceState = z.infer<typeof sourceStateSchema>;
