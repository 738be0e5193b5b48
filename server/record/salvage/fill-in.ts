/** What the others hang on, where it is lost: a recording's beginning and its sensors, said to be unknown. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { REHEARSAL_SENSOR_ID, type SensorIdentity } from '../../../protocol/recording.ts';
import { FACT_TABLES, OF_NO_RECORDING } from '../fact-tables.ts';

const ids = z.array(z.int());
/** Of these tables no row needs a recording: what was deleted for good has none any more. */
const WITHOUT_RECORDING: readonly string[] = [
  FACT_TABLES.begin.table,
  FACT_TABLES.label.table,
  FACT_TABLES.calibration.table,
  FACT_TABLES.prepared.table,
  FACT_TABLES.tombstone.table,
];
const BEGINNING_LOST = 'Saved from a damaged record: how it began is lost';
const SENSOR_LOST: Omit<SensorIdentity, 'id'> = {
  name: 'Unknown sensor (lost with a damaged record)',
  manufacturer: null,
  model: null,
  serial: null,
  firmware: null,
};

/** @param nowMs wall clock, in the place of when they began */
export function fillIn(database: Database.Database, nowMs: number): void {
  const withFacts = Object.values(FACT_TABLES)
    .filter(({ table }) => !WITHOUT_RECORDING.includes(table))
    .map(({ table }) => `SELECT recording_id FROM ${table}`)
    .join(' UNION ');
  const lost = database.prepare(
    `SELECT recording_id FROM (${withFacts}) WHERE recording_id > ${OF_NO_RECORDING}
     AND recording_id NOT IN (SELECT id FROM recording)`,
  );
  for (const id of ids.parse(lost.pluck().all())) {
    // Of the other origins nobody can say whether it was one; what is read in is no proof of a job.
    const origin = isRehearsal(database, id) ? 'rehearsal' : 'import';
    database
      .prepare('INSERT INTO recording VALUES (?, ?, ?, ?)')
      .run(id, origin, nowMs, BEGINNING_LOST);
  }
  nameSensors(database);
}

function isRehearsal(database: Database.Database, recordingId: number): boolean {
  const tells = database.prepare(
    `SELECT EXISTS (SELECT 1 FROM rehearsal_call WHERE recording_id = @recordingId)
       OR EXISTS (SELECT 1 FROM rehearsal_reveal WHERE recording_id = @recordingId)
       OR EXISTS (SELECT 1 FROM sensor WHERE recording_id = @recordingId
         AND identity ->> 'id' = @sensorId)`,
  );
  return tells.pluck().get({ recordingId, sensorId: REHEARSAL_SENSOR_ID }) === 1;
}

function nameSensors(database: Database.Database): void {
  const heard = database
    .prepare(
      `SELECT recording_id, MAX(channel) FROM (
         SELECT recording_id, channel FROM reading UNION SELECT recording_id, channel FROM sensor
       ) GROUP BY recording_id`,
    )
    .raw();
  const named = database
    .prepare('SELECT DISTINCT channel FROM sensor WHERE recording_id = ?')
    .pluck();
  const insert = database.prepare('INSERT INTO sensor VALUES (NULL, ?, ?, ?)');
  for (const [recordingId = 0, last = 0] of z.array(ids).parse(heard.all())) {
    const known = ids.parse(named.all(recordingId));
    for (let channel = 0; channel <= last; channel += 1) {
      if (known.includes(channel)) continue;
      const identity: SensorIdentity = { id: `lost-sensor-${channel}`, ...SENSOR_LOST };
      insert.run(recordingId, channel, JSON.stringify(identity));
    }
  }
}
