/**
 * Version 7: jobs within a recording, what is said of them, and how they are deleted for good.
 *
 * A job begins at a mark of its own and lasts until the next one; the first of a recording begins with it and
 * has the number 0 in the place of a mark's.
 */
import { goesOnlyByTombstone, neverRewritten } from './schema-rules.ts';

const TABLES = `
  -- A mark was a slip. It stays, and counts no more.
  CREATE TABLE mark_taken_back (
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    mark_id INTEGER NOT NULL,
    at_ms INTEGER NOT NULL,
    PRIMARY KEY (recording_id, mark_id)
  ) STRICT, WITHOUT ROWID;

  -- Put away, or taken out again; the latest row of a job holds.
  CREATE TABLE job_archived (
    id INTEGER PRIMARY KEY,
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    begin_mark INTEGER NOT NULL,
    archived INTEGER NOT NULL,
    at_ms INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX job_archived_of_recording ON job_archived (recording_id, id);

  -- Who signed, and what the program concluded then, with the version that drew it. The latest holds.
  CREATE TABLE sign_off (
    id INTEGER PRIMARY KEY,
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    begin_mark INTEGER NOT NULL,
    -- Data times between which lay what was signed for: where the job began, and its last reading then.
    from_s REAL NOT NULL,
    last_s REAL,
    name TEXT NOT NULL,
    licence TEXT NOT NULL,
    remark TEXT NOT NULL,
    quoted TEXT NOT NULL,
    software_version TEXT NOT NULL,
    at_ms INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX sign_off_of_recording ON sign_off (recording_id, id);

  -- When a sensor was last calibrated, as entered; the latest row of a sensor holds.
  CREATE TABLE sensor_calibration (
    id INTEGER PRIMARY KEY,
    sensor_id TEXT NOT NULL,
    calibrated_on TEXT NOT NULL,
    given_at_ms INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX sensor_calibration_of_sensor ON sensor_calibration (sensor_id, id);

  -- Of a recording that came out of another record: what it was there.
  CREATE TABLE taken_from (
    recording_id INTEGER PRIMARY KEY REFERENCES recording (id),
    format TEXT NOT NULL,
    origin TEXT NOT NULL,
    recording_id_there INTEGER NOT NULL,
    started_at_ms INTEGER NOT NULL,
    title TEXT NOT NULL,
    hash TEXT NOT NULL,
    held INTEGER NOT NULL,
    software_version TEXT NOT NULL,
    at_ms INTEGER NOT NULL
  ) STRICT;

  -- What was deleted for good: the stretch of data time, the links of the chain that lost facts, how many.
  CREATE TABLE tombstone (
    id INTEGER PRIMARY KEY,
    recording_id INTEGER NOT NULL,
    begin_mark INTEGER NOT NULL,
    from_s REAL NOT NULL,
    until_s REAL,
    links TEXT NOT NULL,
    facts INTEGER NOT NULL,
    at_ms INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX tombstone_of_recording ON tombstone (recording_id, id);
`;

export const JOBS_AND_DELETION = [
  TABLES,
  neverRewritten(
    'mark_taken_back',
    'job_archived',
    'sign_off',
    'sensor_calibration',
    'taken_from',
    'tombstone',
  ),
  goesOnlyByTombstone('recording', 'OLD.id'),
  ...['recording_end', 'sensor', 'rehearsal_call', 'rehearsal_reveal', 'seen_alert', 'taken_from']
    .concat('reading_taken_back', 'mark_taken_back', 'job_archived', 'sign_off')
    .map((table) => goesOnlyByTombstone(table, 'OLD.recording_id')),
  ...['reading', 'mark', 'sheet_entry'].map((table) =>
    goesOnlyByTombstone(table, 'OLD.recording_id', 'OLD.elapsed_s'),
  ),
  ...['sensor_label', 'sensor_calibration', 'tombstone'].map((table) =>
    goesOnlyByTombstone(table, null),
  ),
].join('\n');
