/** What was announced in a recording, in order, and what became of it: pure, and remembered by the browser. */
import { z } from 'zod';
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import type { AlertFact } from '../words/alert-fact.ts';
import { aboutOf, seenBy } from './alert-identity.ts';
import type { About } from './alert-situation.ts';

const verdict = z.enum(['tight_dry', 'moisture', 'leak', 'leak_and_moisture', 'undecided']);
const dated = { atS: z.number(), sinceS: z.number() };
const alertFactSchema: z.ZodType<AlertFact> = z.discriminatedUnion('kind', [
  z.object({ ...dated, kind: z.literal('target'), targetPa: z.number() }),
  z.object({ ...dated, kind: z.literal('depth'), isolateAtPa: z.number() }),
  z.object({
    ...dated,
    kind: z.literal('levels_off'),
    targetPa: z.number(),
    floorPa: z.number().nullable(),
  }),
  z.object({ ...dated, kind: z.literal('ballast_open') }),
  z.object({
    ...dated,
    kind: z.literal('pump_battery'),
    leftS: z.number(),
    needsS: z.number().nullable(),
  }),
  z.object({ ...dated, kind: z.literal('verdict'), verdict }),
  z.object({ ...dated, kind: z.literal('verdict_changed'), verdict, before: verdict.nullable() }),
  z.object({
    ...dated,
    kind: z.literal('vacuum_lost'),
    fromPa: z.number(),
    toPa: z.number().nullable(),
  }),
  z.object({
    ...dated,
    kind: z.literal('sensor_battery'),
    sensor: z.string(),
    percent: z.number(),
  }),
  z.object({ ...dated, kind: z.literal('sensor_lost'), sensor: z.string() }),
  z.object({ ...dated, kind: z.literal('sensor_back'), sensor: z.string() }),
  z.object({ ...dated, kind: z.literal('bridge_lost') }),
  z.object({ ...dated, kind: z.literal('bridge_back') }),
  z.object({ ...dated, kind: z.literal('device_battery'), percent: z.number() }),
]);

const loggedAlertSchema = z.object({
  /** Counts up within the recording, in this browser. */
  number: z.int().min(1),
  fact: alertFactSchema,
  channel: z.int().min(0),
  /** Wall-clock time at which this page said it, milliseconds since 1970 UTC. */
  atMs: z.number(),
  /** Older than the page itself: shown, and not called out. */
  early: z.boolean(),
  /**
   * `open`: nobody has seen it. `replaced`: something newer about the same took its place. `over`: it was
   * no longer so before anybody had seen it.
   */
  state: z.enum(['open', 'seen', 'replaced', 'over']),
  /** When it was seen, wall clock; null where it was not. */
  seenMs: z.number().nullable(),
  /** Called out, and the browser let nothing be heard. */
  unheard: z.boolean().default(false),
});
export type LoggedAlert = z.infer<typeof loggedAlertSchema>;
export type AlertLog = readonly LoggedAlert[];
export const alertLogSchema: z.ZodType<AlertLog> = z.array(loggedAlertSchema);

/** A day has a few dozen; a setting of ours. */
const MOST_KEPT = 200;

export type Announced = Pick<LoggedAlert, 'fact' | 'channel' | 'atMs' | 'early'>;

/** Takes the place of what stands open about the same. What others have seen already is logged as seen. */
export function announced(log: AlertLog, alert: Announced, seen: readonly SeenAlert[]): AlertLog {
  const known = seenBy(alert.fact, alert.channel, seen);
  const number = (log.at(-1)?.number ?? 0) + 1;
  const isSame = (one: LoggedAlert) =>
    one.channel === alert.channel && aboutOf(one.fact) === aboutOf(alert.fact);
  const entry: LoggedAlert = {
    ...alert,
    number,
    state: known === undefined ? 'open' : 'seen',
    seenMs: known?.atMs ?? null,
    unheard: false,
  };
  return [...changed(log, isSame, { state: 'replaced' }), entry].slice(-MOST_KEPT);
}

/** With what was seen on any page. */
export function withSeen(log: AlertLog, seen: readonly SeenAlert[]): AlertLog {
  const by = (one: LoggedAlert) => seenBy(one.fact, one.channel, seen);
  if (!log.some((one) => one.state === 'open' && by(one) !== undefined)) return log;
  return log.map((one) => {
    const known = one.state === 'open' ? by(one) : undefined;
    return known === undefined ? one : { ...one, state: 'seen', seenMs: known.atMs };
  });
}

/** Seen here. */
export function withOneSeen(log: AlertLog, number: number, nowMs: number): AlertLog {
  return changed(log, (one) => one.number === number, { state: 'seen', seenMs: nowMs });
}

/** Called out in vain. */
export function withUnheard(log: AlertLog, numbers: readonly number[]): AlertLog {
  return changed(log, ({ number }) => numbers.includes(number), { unheard: true });
}

/** What is no longer so. */
export function withOver(log: AlertLog, channel: number, over: readonly About[]): AlertLog {
  return changed(log, (one) => one.channel === channel && over.includes(aboutOf(one.fact)), {
    state: 'over',
  });
}

export function openOf(log: AlertLog): AlertLog {
  return log.filter(({ state }) => state === 'open');
}

/** The same log where nothing open changes. */
function changed(
  log: AlertLog,
  which: (one: LoggedAlert) => boolean,
  change: Partial<Pick<LoggedAlert, 'state' | 'seenMs' | 'unheard'>>,
): AlertLog {
  const isMeant = (one: LoggedAlert) => one.state === 'open' && which(one);
  return log.some(isMeant) ? log.map((one) => (isMeant(one) ? { ...one, ...change } : one)) : log;
}
