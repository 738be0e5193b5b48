/**
 * Version 8: job sheets that were filled in before anything was recorded. A change is another row with all that stands
 * on the sheet; the latest row of a sheet holds, and says which recording took it over. They belong to no recording.
 */
import { neverRewritten } from './schema-rules.ts';

export const PREPARED_SHEETS = `
  CREATE TABLE prepared_sheet (
    id INTEGER PRIMARY KEY,
    -- Which of the sheets.
    prepared INTEGER NOT NULL,
    used_in INTEGER,
    used_s REAL,
    at_ms INTEGER NOT NULL,
    fields TEXT NOT NULL
  ) STRICT;
  CREATE INDEX prepared_sheet_of_number ON prepared_sheet (prepared, id);
  ${neverRewritten('prepared_sheet')}
  CREATE TRIGGER prepared_sheet_goes_only_by_tombstone BEFORE DELETE ON prepared_sheet
  WHEN NOT EXISTS (SELECT 1 FROM tombstone WHERE recording_id = 0 AND begin_mark = OLD.prepared)
  BEGIN SELECT RAISE(ABORT, 'a recorded fact is never deleted without a tombstone'); END;
`;
