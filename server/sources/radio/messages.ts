/** What the bridge and the process that holds the radio say to each other. */
import { z } from 'zod';
import { sensorIdentitySchema } from '../../../protocol/recording.ts';
import { radioTimingSchema } from './timing.ts';

export const toRadioSchema = z.discriminatedUnion('type', [
  /** The first message: begin, with these durations. */
  z.strictObject({ type: z.literal('begin'), timing: radioTimingSchema }),
  /** Are you there? */
  z.strictObject({ type: z.literal('ping') }),
  /** Disconnect everything and end. */
  z.strictObject({ type: z.literal('stop') }),
]);
export type ToRadio = z.infer<typeof toRadioSchema>;

const sensorId = sensorIdentitySchema.shape.id;

/** Why the process that holds the radio ends by itself. */
const RADIO_ENDS = [
  'no_bluetooth',
  'no_radio_library',
  'no_adapter',
  'no_permission',
  /** The adapter is back after it was off: what the host library held is void. */
  'adapter_returned',
  /** The host library gets no answers any more. */
  'unresponsive',
  'stopped',
] as const;
export type RadioEnd = (typeof RADIO_ENDS)[number];

const SESSION_PHASES = ['connecting', 'live', 'stale', 'lost'] as const;
const SESSION_PROBLEMS = [
  'sensor_lost',
  'sensor_silent',
  'sensor_refuses',
  'sensor_not_understood',
] as const;

export const fromRadioSchema = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('adapter'), on: z.boolean() }),
  z.strictObject({
    type: z.literal('session'),
    sensorId,
    name: sensorIdentitySchema.shape.name,
    phase: z.enum(SESSION_PHASES),
    problem: z.enum(SESSION_PROBLEMS).nullable(),
  }),
  z.strictObject({ type: z.literal('sensor'), identity: sensorIdentitySchema }),
  z.strictObject({
    type: z.literal('reading'),
    sensorId,
    /** As they came; nothing is decoded here. */
    bytes: z.custom<Uint8Array>((value) => value instanceof Uint8Array),
    /** On the clock of `monotonic-clock.ts`. */
    arrivedMs: z.number(),
  }),
  z.strictObject({ type: z.literal('battery'), sensorId, percent: z.number().min(0).max(100) }),
  z.strictObject({ type: z.literal('signal'), sensorId, dbm: z.number() }),
  z.strictObject({ type: z.literal('log'), text: z.string() }),
  z.strictObject({ type: z.literal('pong') }),
  z.strictObject({ type: z.literal('end'), why: z.enum(RADIO_ENDS), detail: z.string() }),
]);
export type FromRadio = z.infer<typeof fromRadioSchema>;
export type SessionReport = Extract<FromRadio, { type: 'session' }>;
