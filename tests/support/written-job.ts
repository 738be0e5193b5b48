/** Jobs written straight into a record, for tests of what is taken out of it and put back. */
import type { Mark } from '../../protocol/mark.ts';
import type { ReceivedReading } from '../../protocol/reading.ts';
import type { Origin } from '../../protocol/recording.ts';
import type { Recorder } from '../../server/record/recorder.ts';
import { jobSession } from './job-sessions.ts';

export const STARTED_MS = Date.UTC(2026, 10, 26, 17, 3, 11);

const UNKNOWN = { manufacturer: null, model: null, serial: null, firmware: null };

/** With digits to the last place, as a clock that was put right and a gauge's conversion leave them. */
function receivedReadings(seed: number, channel: number): ReceivedReading[] {
  return jobSession(seed).points.map((point, at) => ({
    channel,
    boot: 7 + channel,
    sequence: 4_000_000_000 + at,
    uptimeMs: Math.round(point.elapsedS * 1000) + 5000,
    arrivedS: point.elapsedS + 0.0731 + 1e-9 * at,
    elapsedS: point.elapsedS * (1 + 1 / 3e5),
    pressurePa: point.pressurePa === null ? null : point.pressurePa * (1 + 1 / 3e7),
    temperatureC: 20 + at / 7e4,
    condition: point.condition,
  }));
}

export interface WishedJob {
  readonly seed: number;
  readonly origin: Origin;
  readonly sensors: number;
  /** Every so many readings alone: those of somebody who types. */
  readonly every: number;
}

/** @returns its number */
export async function recordJob(recorder: Recorder, wish: WishedJob): Promise<number> {
  const { seed, origin, sensors, every } = wish;
  const title = origin === 'rehearsal' ? 'quarry-road-bakery' : '';
  const id = recorder.begin(origin, STARTED_MS + seed, title);
  const channels = Array.from({ length: sensors }, (_, channel) => channel);
  for (const channel of channels) {
    recorder.sensor(id, channel, { id: `s${channel}`, name: `Gauge ${channel}`, ...UNKNOWN });
  }
  const readings = channels
    .flatMap((channel) => receivedReadings(seed + channel, channel))
    .filter((_, at) => at % every === 0)
    .sort((a, b) => a.elapsedS - b.elapsedS);
  // One that was fetched later stands at its end.
  const [late] = readings.splice(40, 1);
  for (let at = 0; at < readings.length; at += 500) {
    recorder.readings(id, readings.slice(at, at + 500));
    await recorder.settled();
  }
  if (late !== undefined) recorder.readings(id, [late]);
  for (const { kind, elapsedS } of jobSession(seed).marks) {
    await recorder.mark(id, { kind, elapsedS, text: '' }, madeBy(origin));
  }
  await recorder.mark(id, { kind: 'note', elapsedS: 33, text: NOTE }, 'hand');
  const slip = await recorder.mark(id, { kind: 'oil_changed', elapsedS: 40, text: '' }, 'hand');
  await recorder.takeMarkBack(id, slip.id, STARTED_MS + 41_000);
  const fields = {
    site: 'Quay 4',
    targetPa: 80.00001,
    sensorSees: 'system',
    volumeM3: 1 / 90,
  } as const;
  await recorder.sheetEntry(id, { elapsedS: 5, fields });
  const wrong = { index: 12, elapsedS: readings[11]?.elapsedS ?? 0, pressurePa: null };
  recorder.takeBack(id, { ...wrong, insteadPa: 12.5, atMs: STARTED_MS + 60_001 });
  await recorder.seenAlert(id, { alert: '0/target', untilS: 9.25, atMs: STARTED_MS + 9500 });
  await recorder.signOff(id, {
    beginMark: 0,
    fromS: 0,
    lastS: null,
    name: 'A. Technician',
    licence: '',
    remark: 'looked at it twice',
    quoted: 'not decided',
    softwareVersion: '0',
    atMs: STARTED_MS + 99_000,
  });
  recorder.end(id, STARTED_MS + 5_000_000);
  await recorder.settled();
  return id;
}

/** What spreadsheets would run, and what a separator or a line's end might tear apart. */
export const NOTE = '=1+1, "quoted"\nsecond line; ünï – 真空';

function madeBy(origin: Origin): Mark['madeBy'] {
  return origin === 'rehearsal' ? 'rehearsal' : 'hand';
}
