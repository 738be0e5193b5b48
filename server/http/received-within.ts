/** Readings in columns, as far as they belong to a job. Pure. */
import { isWithin, type Job } from '../../protocol/job.ts';
import type { ReceivedColumns } from '../../protocol/reading.ts';

export function receivedWithin(columns: ReceivedColumns, job: Job): ReceivedColumns {
  const { elapsedS } = columns;
  if (elapsedS.every((atS) => isWithin(job, atS))) return columns;
  const own = <T>(column: readonly T[]): T[] =>
    column.filter((_, row) => isWithin(job, elapsedS[row] ?? NaN));
  return {
    index: own(columns.index),
    channel: own(columns.channel),
    boot: own(columns.boot),
    sequence: own(columns.sequence),
    uptimeMs: own(columns.uptimeMs),
    arrivedS: own(columns.arrivedS),
    elapsedS: own(elapsedS),
    pressurePa: own(columns.pressurePa),
    temperatureC: own(columns.temperatureC),
    condition: own(columns.condition),
  };
}
