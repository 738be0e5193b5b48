/** A reading: one measured absolute pressure, as the record keeps it and every screen sees it. */
import { z } from 'zod';

/**
 * How a reading may be used. Only `ok` and `warming_up` carry a pressure that was measured;
 * `over_range` is the normal state near atmospheric pressure.
 */
export const CONDITIONS = ['ok', 'over_range', 'under_range', 'warming_up', 'fault'] as const;
export type Condition = (typeof CONDITIONS)[number];

const index = z.int().min(1);
const uptimeMs = z.int().min(0).max(0xffff_ffff);

/** What a decoded, placed reading says, before the record has given it its index. */
const readingFactSchema = z.strictObject({
  /** Which of the recording's sensors spoke (position in the recording's `sensors`). */
  channel: z.int().min(0).max(255),
  /** The sensor's boot id: changes whenever the sensor restarts. */
  boot: z.int().min(0).max(0xffff),
  /** The sensor's own running number: reveals loss, duplicates and reordering. */
  sequence: z.int().min(0).max(0xffff_ffff),
  /** Data time: seconds since the recording began, on the sensor's clock, not that of arrival. */
  elapsedS: z.number().min(0),
  /** Absolute pressure, or null where the sensor knows none (over range, fault). */
  pressurePa: z.number().min(0).nullable(),
  /** The sensor's temperature, or null where it knows none. */
  temperatureC: z.number().nullable(),
  condition: z.enum(CONDITIONS),
});
export type ReadingFact = z.infer<typeof readingFactSchema>;

/** What the record keeps beside it, so that the time axis can be drawn anew from the raw facts. */
export const receivedReadingSchema = readingFactSchema.extend({
  /** The sensor's own clock when it measured, ms since its boot (wraps at 2³²). */
  uptimeMs,
  /** When the bytes arrived: seconds since the recording began, on the bridge's monotonic clock. */
  arrivedS: z.number(),
});
export type ReceivedReading = Readonly<z.infer<typeof receivedReadingSchema>>;

export const readingSchema = readingFactSchema.extend({
  /** 1, 2, 3 … in the order in which the record took them: what a screen resumes from. */
  index,
});
export type Reading = z.infer<typeof readingSchema>;

const column = <T extends z.ZodType>(item: T) => z.array(item).max(5000);

const columns = {
  index: column(index),
  channel: column(readingFactSchema.shape.channel),
  boot: column(readingFactSchema.shape.boot),
  sequence: column(readingFactSchema.shape.sequence),
  elapsedS: column(readingFactSchema.shape.elapsedS),
  pressurePa: column(readingFactSchema.shape.pressurePa),
  temperatureC: column(readingFactSchema.shape.temperatureC),
  condition: column(readingFactSchema.shape.condition),
};

/** Whether each of the columns has a value for each row. */
function areOfEqualLength(all: Readonly<Record<string, readonly unknown[]>>): boolean {
  return new Set(Object.values(all).map((values) => values.length)).size === 1;
}
const UNEQUAL = { message: 'columns must be of equal length' };

/**
 * Readings as columns of equal length. A day at 10 Hz is 94 MB as objects and a ninth of that as
 * columns, and is parsed nine times as fast.
 */
export const readingColumnsSchema = z.strictObject(columns).refine(areOfEqualLength, UNEQUAL);
export type ReadingColumns = z.infer<typeof readingColumnsSchema>;

/** The same with all that the record keeps beside a reading. */
export const receivedColumnsSchema = z
  .strictObject({ ...columns, uptimeMs: column(uptimeMs), arrivedS: column(z.number()) })
  .refine(areOfEqualLength, UNEQUAL);
export type ReceivedColumns = z.infer<typeof receivedColumnsSchema>;

export function columnsFromReadings(readings: readonly Reading[]): ReadingColumns {
  return {
    index: readings.map((reading) => reading.index),
    channel: readings.map((reading) => reading.channel),
    boot: readings.map((reading) => reading.boot),
    sequence: readings.map((reading) => reading.sequence),
    elapsedS: readings.map((reading) => reading.elapsedS),
    pressurePa: readings.map((reading) => reading.pressurePa),
    temperatureC: readings.map((reading) => reading.temperatureC),
    condition: readings.map((reading) => reading.condition),
  };
}

export function readingsFromColumns(columns: ReadingColumns): Reading[] {
  return columns.index.map((value, row) => ({
    index: value,
    channel: at(columns.channel, row),
    boot: at(columns.boot, row),
    sequence: at(columns.sequence, row),
    elapsedS: at(columns.elapsedS, row),
    pressurePa: at(columns.pressurePa, row),
    temperatureC: at(columns.temperatureC, row),
    condition: at(columns.condition, row),
  }));
}

function at<T>(values: readonly T[], row: number): T {
  const value = values[row];
  if (value === undefined) throw new RangeError(`a column ends before row ${row}`);
  return value;
}
