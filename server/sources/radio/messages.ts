/** What the bridge and the process that holds the radio say to each other. */
import { z } from 'zod';
import { sensorIdentitySchema } from '../../../protocol/recording.ts';
import { SESSION_PHASES } from './session-phases.ts';
import { radioTimingSchema } from './timing.ts';

const sensorId = sensorIdentitySchema.shape.id;
/** A reading's number as the sensor counts it. */
const sequence = z.int().min(0).max(0xffff_ffff);

export const toRadioSchema = z.discriminatedUnion('type', [
  /** The first message: begin, with these durations. */
  z.strictObject({ type: z.literal('begin'), timing: radioTimingSchema }),
  /** Sensors that don't speak our profile and are to be heard all the same; in place of all before. */
  z.strictObject({ type: z.literal('choose'), sensorIds: z.array(sensorId) }),
  /** Ask a connected sensor for readings that it has kept; answered with `fetched`. */
  z.strictObject({ type: z.literal('fetch'), sensorId, from: sequence, to: sequence }),
  /** Are you there? */
  z.strictObject({ type: z.literal('ping') }),
  /** Disconnect everything and end. */
  z.strictObject({ type: z.literal('stop') }),
]);
export type ToRadio = z.infer<typeof toRadioSchema>;

/** Why the process that holds the radio ends by itself. */
const RADIO_ENDS = [
  'no_bluetooth',
  'no_radio_library',
  'no_adapter',
  'no_permission',
  /** It is off, and has been for long. */
  'adapter_off',
  /** The adapter is back after it was off: what the host library held is void. */
  'adapter_returned',
  /** The host library gets no answers any more. */
  'unresponsive',
  'stopped',
] as const;
export type RadioEnd = (typeof RADIO_ENDS)[number];

const SESSION_PROBLEMS = [
  'sensor_not_chosen',
  'standard_sensor',
  'simulated_sensor',
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
    /** It had been kept by the sensor and was asked for. */
    fetched: z.boolean(),
  }),
  /** How many readings a sensor keeps for a bridge that has missed them; said with each connection. */
  z.strictObject({ type: z.literal('store'), sensorId, depth: z.int().min(0) }),
  /** A `fetch` has ended: with all that the sensor still has of it, or before. */
  z.strictObject({
    type: z.literal('fetched'),
    sensorId,
    from: sequence,
    to: sequence,
    whole: z.boolean(),
  }),
  z.strictObject({ type: z.literal('battery'), sensorId, percent: z.number().min(0).max(100) }),
  z.strictObject({ type: z.literal('signal'), sensorId, dbm: z.number() }),
  z.strictObject({ type: z.literal('log'), text: z.string() }),
  z.strictObject({ type: z.literal('pong') }),
  z.strictObject({ type: z.literal('end'), why: z.enum(RADIO_ENDS), detail: z.string() }),
]);
export type FromRadio = z.infer<typeof fromRadioSchema>;
export type SessionReport = Extract<FromRadio, { type: 'session' }>;
