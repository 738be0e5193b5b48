/** A simulated job, put into a record at once as if it had been heard long ago. */
import type { NewMark } from '../../protocol/mark.ts';
import type { Origin } from '../../protocol/recording.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { ReceivedReading } from '../../protocol/reading.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { play } from '../../simulators/scenarios/play.ts';
import { scenarioNamed } from './played-scenario.ts';

export interface PlayedJob {
  readonly scenario: string;
  /** Data time at which it ends; all of it where none is given. */
  readonly untilS?: number;
  readonly origin?: Origin;
  readonly title?: string;
  readonly sheet?: Partial<Sheet>;
  /** Besides the helper's own. */
  readonly marks?: readonly NewMark[];
  /** Each sees the same, the second a tenth more, and so on. */
  readonly sensors?: readonly string[];
  readonly startedAtMs?: number;
}

export const JOB_BEGAN_MS = Date.UTC(2026, 2, 4, 9, 30, 0);

/** @returns their recordings' numbers, in order */
export async function recordJobs(
  dataFolder: string,
  jobs: readonly PlayedJob[],
): Promise<number[]> {
  const recorder = await Recorder.open(dataFolder, {
    durable: () => undefined,
    held: (detail) => {
      throw new Error(detail);
    },
  });
  const ids: number[] = [];
  for (const job of jobs) ids.push(await recordJob(recorder, job));
  await recorder.close();
  return ids;
}

async function recordJob(recorder: Recorder, job: PlayedJob): Promise<number> {
  const { origin = 'sensor', sensors = ['Roof gauge'], startedAtMs = JOB_BEGAN_MS } = job;
  const played = play(scenarioNamed(job.scenario), 4);
  const untilS = job.untilS ?? Infinity;
  const id = recorder.begin(origin, startedAtMs, job.title ?? '');
  for (const [channel, name] of sensors.entries()) {
    const known = { manufacturer: null, model: null, serial: '0042', firmware: null };
    recorder.sensor(id, channel, { id: `sensor-${channel}`, name, ...known });
  }
  const rows = played.rows.filter(({ elapsedS }) => elapsedS <= untilS);
  recorder.readings(
    id,
    rows.flatMap(({ elapsedS, pressurePa, temperatureC }, at) =>
      sensors.map((_, channel): ReceivedReading => ({
        channel,
        boot: 1,
        sequence: at,
        uptimeMs: 1000 * at,
        arrivedS: elapsedS,
        elapsedS,
        pressurePa: pressurePa === null ? null : pressurePa * (1 + channel / 10),
        temperatureC,
        condition: pressurePa === null ? 'over_range' : 'ok',
      })),
    ),
  );
  if (job.sheet !== undefined) {
    await recorder.sheetEntry(id, { elapsedS: 5, fields: job.sheet });
  }
  const madeBy = origin === 'rehearsal' ? 'rehearsal' : 'hand';
  for (const mark of [...played.marks, ...(job.marks ?? [])]) {
    if (mark.elapsedS <= untilS) await recorder.mark(id, mark, madeBy);
  }
  recorder.end(id, startedAtMs + 1000 * (rows.at(-1)?.elapsedS ?? 0));
  return id;
}
