-- What an office keeps of its vans. Facts and readings are the vans'; only what the vans deleted is deleted.

CREATE TABLE van (
  van text PRIMARY KEY,
  online boolean NOT NULL,
  software_version text NOT NULL,
  -- When that was heard.
  heard_at timestamptz NOT NULL
);

CREATE TABLE recording (
  id bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  van text NOT NULL,
  -- The van's own number of it, and data time zero: together they name it for good.
  number integer NOT NULL,
  started_at_ms bigint NOT NULL,
  -- High-water marks: all readings up to this number are here, and facts of this version.
  last_index integer NOT NULL DEFAULT 0,
  facts_version integer NOT NULL DEFAULT 0,
  -- Any of it was played and not measured: it proves nothing of any job.
  simulated boolean NOT NULL DEFAULT false,
  -- Null until the facts are here.
  origin text,
  title text,
  running boolean,
  sensors jsonb,
  taken_from jsonb,
  sign_offs jsonb NOT NULL DEFAULT '[]',
  -- The van deleted it for good: nothing comes back into it.
  deleted_at timestamptz,
  UNIQUE (van, number, started_at_ms)
);

CREATE TABLE reading (
  recording_id bigint NOT NULL REFERENCES recording (id),
  reading_index integer NOT NULL,
  channel smallint NOT NULL,
  boot integer NOT NULL,
  sequence bigint NOT NULL,
  elapsed_s double precision NOT NULL,
  -- Absolute, Pa; null where the sensor knew none.
  pressure_pa double precision,
  temperature_c double precision,
  condition text NOT NULL,
  PRIMARY KEY (recording_id, reading_index)
);

CREATE TABLE mark (
  recording_id bigint NOT NULL REFERENCES recording (id),
  mark_id integer NOT NULL,
  kind text NOT NULL,
  elapsed_s double precision NOT NULL,
  text text NOT NULL,
  made_by text NOT NULL,
  PRIMARY KEY (recording_id, mark_id)
);

CREATE TABLE job (
  recording_id bigint NOT NULL REFERENCES recording (id),
  begin_mark integer NOT NULL,
  from_s double precision NOT NULL,
  until_s double precision,
  PRIMARY KEY (recording_id, begin_mark)
);

CREATE TABLE sheet_entry (
  recording_id bigint NOT NULL REFERENCES recording (id),
  position integer NOT NULL,
  elapsed_s double precision NOT NULL,
  fields jsonb NOT NULL,
  PRIMARY KEY (recording_id, position)
);

CREATE TABLE reading_taken_back (
  recording_id bigint NOT NULL REFERENCES recording (id),
  reading_index integer NOT NULL,
  PRIMARY KEY (recording_id, reading_index)
);

CREATE TABLE deleted_stretch (
  recording_id bigint NOT NULL REFERENCES recording (id),
  from_s double precision NOT NULL,
  until_s double precision
);
CREATE INDEX deleted_stretch_of_recording ON deleted_stretch (recording_id);

-- Drawn from facts by the van's program, for whoever looks at many vans at once. Never a fact.
CREATE TABLE outlook (
  recording_id bigint PRIMARY KEY REFERENCES recording (id),
  drawn_at timestamptz NOT NULL,
  outlook jsonb NOT NULL
);

-- What could not be understood, the latest thousand: nothing of it was taken.
CREATE TABLE refused_message (
  id bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  topic text NOT NULL,
  reason text NOT NULL,
  at timestamptz NOT NULL DEFAULT now()
);

-- Readings that count, with the van and, where the recording knows one, the time of day.
CREATE VIEW measured AS
  SELECT recording.van, recording.number, recording.simulated, reading.*,
    CASE WHEN recording.origin IN ('sensor', 'typed_in')
      THEN to_timestamp(recording.started_at_ms / 1000.0 + reading.elapsed_s) END AS measured_at
  FROM reading JOIN recording ON recording.id = reading.recording_id
  WHERE NOT EXISTS (
    SELECT FROM reading_taken_back AS slip
    WHERE slip.recording_id = reading.recording_id AND slip.reading_index = reading.reading_index
  );
