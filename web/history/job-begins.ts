/** At which moments another job may have begun, as the readings tell. Pure. */
import type { Job } from '../../protocol/job.ts';
import type { ChannelReadings } from '../store/channel-readings.ts';

export const BEGINNINGS = ['pump_on', 'silence', 'now'] as const;
export type Beginning = (typeof BEGINNINGS)[number];

/** One drives to the next system, and the sensor is switched off or out of reach. A setting of ours, s. */
const SILENCE_S = 600;
/** Sooner than this after its job began, a moment is that job's own, s. */
const LATER_BY_S = 60;

/** @returns data times, s; only those that are there */
export function jobBeginnings(
  job: Job,
  readings: ChannelReadings,
  pullDownS: number | null,
): Partial<Record<Beginning, number>> {
  const latestS = readings.length === 0 ? null : readings.elapsedS(readings.length - 1);
  const silenceS = endOfLastSilence(readings);
  const isLater = (atS: number | null): atS is number =>
    atS !== null && atS > job.fromS + LATER_BY_S;
  return {
    ...(isLater(pullDownS) ? { pump_on: pullDownS } : {}),
    ...(isLater(silenceS) ? { silence: silenceS } : {}),
    ...(latestS === null ? {} : { now: latestS }),
  };
}

function endOfLastSilence(readings: ChannelReadings): number | null {
  for (let row = readings.length - 1; row > 0; row -= 1) {
    const atS = readings.elapsedS(row);
    if (atS - readings.elapsedS(row - 1) >= SILENCE_S) return atS;
  }
  return null;
}
