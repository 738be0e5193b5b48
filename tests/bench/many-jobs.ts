/**
 * A record with very many jobs: one three-hour job at one reading a second as the recorder keeps it, and copies
 * of its rows under other numbers. What a copy's card says is what its readings would give, since they are the same.
 */
import { setTimeout } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { join } from 'node:path';
import type { JobCard } from '../../protocol/job-card.ts';
import { jobListSchema } from '../../protocol/job-card.ts';
import type { ReceivedReading } from '../../protocol/reading.ts';
import { CardFile } from '../../server/jobs/kept-cards.ts';
import { RECORD_FILE } from '../../server/record/open-database.ts';
import { Recorder } from '../../server/record/recorder.ts';
import packageJson from '../../package.json' with { type: 'json' };
import { runBridge } from '../support/running-bridge.ts';

export const JOB_READINGS = 3 * 3600;
const BATCH = 2000;
const TOWNS = ['Weir Street', 'Quay', 'Mill Lane', 'Harbour', 'Ropewalk', 'Lock Hill', 'Old Ferry'];
const DAY_MS = 24 * 3_600_000;

/** @param readingsEach of every job but the first, at most as many as that has */
export async function recordManyJobs(
  dataFolder: string,
  jobs: number,
  readingsEach: number,
): Promise<void> {
  await recordFirst(dataFolder);
  const first = await judgedFirst(dataFolder);
  const database = new Database(join(dataFolder, RECORD_FILE));
  // It is thrown away afterwards; a real record is never written so.
  database.pragma('journal_mode = MEMORY');
  database.pragma('synchronous = OFF');
  const copies = [
    `INSERT INTO recording SELECT @id, origin, @startedAtMs, title FROM recording WHERE id = 1`,
    `INSERT INTO recording_end SELECT @id, @startedAtMs + 10800000 FROM recording_end WHERE recording_id = 1`,
    `INSERT INTO sensor SELECT NULL, @id, channel, identity FROM sensor WHERE recording_id = 1`,
    `INSERT INTO mark SELECT NULL, @id, kind, elapsed_s, text, made_by FROM mark WHERE recording_id = 1`,
    `INSERT INTO sheet_entry VALUES (NULL, @id, 0, json_object('site', @site, 'equipment', @equipment))`,
    `INSERT INTO reading SELECT @id, reading_index, channel, boot, sequence, uptime_ms, arrived_s, elapsed_s,
       pressure_pa, temperature_c, condition FROM reading
     WHERE recording_id = 1 AND reading_index <= @readingsEach`,
    // So many links as its readings would have had; nobody verifies the copies.
    `INSERT INTO chain_link SELECT @id, number, facts, hash FROM chain_link WHERE recording_id = 1`,
  ].map((sql) => database.prepare(sql));
  const cards = new CardFile(dataFolder, packageJson.version);
  const links = Number(
    database.prepare('SELECT MAX(number) FROM chain_link WHERE recording_id = 1').pluck().get(),
  );
  database.exec('BEGIN');
  for (let id = 2; id <= jobs; id += 1) {
    const startedAtMs = Date.now() - id * DAY_MS * 0.2;
    const site = `${TOWNS[id % TOWNS.length] ?? ''} ${1 + (id % 190)}`;
    const equipment = `Cold room ${1 + (id % 3)}`;
    const values = { id, startedAtMs, site, equipment, readingsEach };
    for (const copy of copies) {
      const named = Object.entries(values).filter(([name]) => copy.source.includes(`@${name}`));
      copy.run(Object.fromEntries(named));
    }
    cards.keep({
      recordingId: id,
      facts: links,
      cards: [{ ...first, recordingId: id, startedAtMs, site, equipment }],
    });
  }
  database.exec('COMMIT');
  cards.close();
  database.pragma('journal_mode = WAL');
  database.close();
}

async function recordFirst(dataFolder: string): Promise<void> {
  const recorder = await Recorder.open(dataFolder, { durable: () => undefined, held: () => {} });
  const id = recorder.begin('sensor', Date.now(), '');
  const unknown = { manufacturer: null, model: null, serial: null, firmware: null };
  recorder.sensor(id, 0, { id: 'bench', name: 'Roof gauge', ...unknown });
  for (let from = 0; from < JOB_READINGS; from += BATCH) {
    const count = Math.min(BATCH, JOB_READINGS - from);
    recorder.readings(
      id,
      Array.from({ length: count }, (_, at) => reading(from + at)),
    );
  }
  await recorder.mark(id, { kind: 'pump_on', elapsedS: 0, text: '' }, 'hand');
  await recorder.mark(id, { kind: 'isolated', elapsedS: 9000, text: '' }, 'hand');
  recorder.end(id, Date.now());
  await recorder.settled();
  await recorder.close();
}

/** A pull-down from the air to 30 Pa, and a hold that rises a little. */
function reading(elapsedS: number): ReceivedReading {
  const pulledPa = 30 + 1e5 * Math.exp(-elapsedS / 600);
  const pressurePa = elapsedS < 9000 ? pulledPa : 30 + (elapsedS - 9000) / 300;
  return {
    channel: 0,
    boot: 1,
    sequence: elapsedS,
    uptimeMs: elapsedS * 1000,
    arrivedS: elapsedS,
    elapsedS,
    pressurePa: pressurePa * (1 + 0.001 * Math.sin(elapsedS * 7)),
    temperatureC: null,
    condition: 'ok',
  };
}

async function judgedFirst(dataFolder: string): Promise<JobCard> {
  const bridge = await runBridge({ dataFolder });
  try {
    for (;;) {
      const list = jobListSchema.parse(await (await fetch(new URL('api/jobs', bridge.url))).json());
      const [card] = list.jobs;
      if (card?.outcomes) return card;
      await setTimeout(50);
    }
  } finally {
    await bridge.stop();
  }
}
