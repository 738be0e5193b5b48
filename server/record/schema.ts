/**
 * The tables of the record, as a list of migrations: entry n brings a database from version n to
 * n + 1. Entries are never edited once released; a change is a new entry.
 *
 * Only facts are kept. Triggers refuse to change one, whatever the program above may try: a
 * correction is a new fact.
 */
import { JOBS_AND_DELETION } from './schema-of-jobs.ts';
import { PREPARED_SHEETS } from './schema-of-prepared.ts';
import { neverRewritten } from './schema-rules.ts';

export const MIGRATIONS: readonly string[] = [
  `
  CREATE TABLE recording (
    id INTEGER PRIMARY KEY,
    origin TEXT NOT NULL,
    started_at_ms INTEGER NOT NULL,
    title TEXT NOT NULL
  ) STRICT;

  CREATE TABLE recording_end (
    recording_id INTEGER PRIMARY KEY REFERENCES recording (id),
    ended_at_ms INTEGER NOT NULL
  ) STRICT;

  -- What is learnt about a sensor is appended; the latest row of a channel holds.
  CREATE TABLE sensor (
    id INTEGER PRIMARY KEY,
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    channel INTEGER NOT NULL,
    identity TEXT NOT NULL
  ) STRICT;
  CREATE INDEX sensor_of_recording ON sensor (recording_id, channel, id);

  CREATE TABLE reading (
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    reading_index INTEGER NOT NULL,
    channel INTEGER NOT NULL,
    boot INTEGER NOT NULL,
    sequence INTEGER NOT NULL,
    uptime_ms INTEGER NOT NULL,
    arrived_s REAL NOT NULL,
    elapsed_s REAL NOT NULL,
    pressure_pa REAL,
    temperature_c REAL,
    condition TEXT NOT NULL,
    PRIMARY KEY (recording_id, reading_index)
  ) STRICT, WITHOUT ROWID;

  CREATE TABLE mark (
    id INTEGER PRIMARY KEY,
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    kind TEXT NOT NULL,
    elapsed_s REAL NOT NULL,
    text TEXT NOT NULL,
    made_by TEXT NOT NULL
  ) STRICT;
  CREATE INDEX mark_of_recording ON mark (recording_id, id);

  CREATE TABLE sheet_entry (
    id INTEGER PRIMARY KEY,
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    elapsed_s REAL NOT NULL,
    fields TEXT NOT NULL
  ) STRICT;
  CREATE INDEX sheet_entry_of_recording ON sheet_entry (recording_id, id);
  ${neverRewritten('recording', 'recording_end', 'sensor', 'reading', 'mark', 'sheet_entry')}
  `,
  // Recordings can be imported or typed in from here on. The tables are the same, but a program that
  // does not know these origins must refuse the record rather than stumble over one of its rows.
  '-- origins: import, typed_in',
  // What a trainee said a rehearsal's cause is, and what it really was; of each one for a recording.
  `
  CREATE TABLE rehearsal_call (
    recording_id INTEGER PRIMARY KEY REFERENCES recording (id),
    trainee TEXT NOT NULL,
    cause TEXT NOT NULL,
    sure_percent INTEGER NOT NULL,
    elapsed_s REAL NOT NULL
  ) STRICT;

  CREATE TABLE rehearsal_reveal (
    recording_id INTEGER PRIMARY KEY REFERENCES recording (id),
    scenario TEXT NOT NULL,
    seed INTEGER NOT NULL,
    truth TEXT NOT NULL,
    told_s REAL,
    revealed_at_ms INTEGER NOT NULL
  ) STRICT;
  ${neverRewritten('rehearsal_call', 'rehearsal_reveal')}
  `,
  // What a technician says of a sensor, and which typed-in readings were taken back. A change is another row; the latest of a sensor holds.
  `
  CREATE TABLE sensor_label (
    id INTEGER PRIMARY KEY,
    sensor_id TEXT NOT NULL,
    name TEXT NOT NULL,
    place TEXT NOT NULL,
    display_step_pa REAL,
    given_at_ms INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX sensor_label_of_sensor ON sensor_label (sensor_id, id);

  CREATE TABLE reading_taken_back (
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    reading_index INTEGER NOT NULL,
    instead_pa REAL,
    at_ms INTEGER NOT NULL,
    PRIMARY KEY (recording_id, reading_index)
  ) STRICT, WITHOUT ROWID;
  ${neverRewritten('sensor_label', 'reading_taken_back')}
  `,
  // Which alerts somebody has seen, and up to which data time.
  `
  CREATE TABLE seen_alert (
    id INTEGER PRIMARY KEY,
    recording_id INTEGER NOT NULL REFERENCES recording (id),
    alert TEXT NOT NULL,
    until_s REAL NOT NULL,
    at_ms INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX seen_alert_of_recording ON seen_alert (recording_id, id);
  ${neverRewritten('seen_alert')}
  `,
  // A chain of hashes over the facts, and what became of a recording that was deleted for good: its facts go only
  // once that stands there, and the hashes stay.
  `
  CREATE TABLE chain_link (
    recording_id INTEGER NOT NULL,
    number INTEGER NOT NULL,
    facts TEXT NOT NULL,
    hash BLOB NOT NULL,
    PRIMARY KEY (recording_id, number)
  ) STRICT, WITHOUT ROWID;
  ${neverRewritten('chain_link')}
  CREATE TRIGGER chain_link_is_never_deleted BEFORE DELETE ON chain_link
  BEGIN SELECT RAISE(ABORT, 'the chain over the facts is never shortened'); END;
  `,
  JOBS_AND_DELETION,
  PREPARED_SHEETS,
];
