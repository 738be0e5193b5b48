/** Makes a new record of what can be read of a damaged one, and says in it what is missing. */
import Database from 'better-sqlite3';
import { z } from 'zod';
import { jobsIn } from '../../../protocol/job.ts';
import {
  type SalvageNote,
  type SavedShare,
  writeSalvageNote,
} from '../../../protocol/salvage-note.ts';
import { FACT_TABLES, type FactTableName, OF_NO_RECORDING, whereOf } from '../fact-tables.ts';
import { RecordReader } from '../record-reader.ts';
import { MIGRATIONS } from '../schema.ts';
import { DamagedFile } from './damaged-file.ts';
import { fillIn } from './fill-in.ts';
import { ChainMender, isOfKind, toldSpans } from './mend-chain.ts';
import { readingsGiven } from './readings-given.ts';
import { LINKS_APART, saveRows } from './save-rows.ts';

/**
 * @param from the damaged database file; its log is read as well
 * @param into a file that is not there yet
 * @param lies where the damaged files will lie, for the note in what has suffered
 */
export function salvage(from: string, into: string, lies: string, nowMs: number): SalvageNote {
  const file = new DamagedFile(from);
  const database = new Database(into);
  try {
    // Rows come as the pages lie: what they refer to may come later.
    database.pragma('foreign_keys = OFF');
    for (const migration of MIGRATIONS) database.exec(migration);
    const saved = database.transaction(() => {
      database.exec(LINKS_APART);
      saveRows(file, database);
      const before = countAll(database);
      fillIn(database, nowMs);
      mendAll(database, lies, nowMs);
      database.exec('INSERT INTO main.chain_link SELECT * FROM temp.chain_link');
      database.pragma(`user_version = ${MIGRATIONS.length}`);
      return before;
    })();
    return saved;
  } finally {
    database.close();
    file.close();
  }
}

function mendAll(database: Database.Database, lies: string, nowMs: number): void {
  const mender = new ChainMender(database, nowMs);
  const reader = new RecordReader(database);
  const note = database.prepare(
    `INSERT INTO mark SELECT NULL, @recordingId, 'note',
       COALESCE((SELECT MAX(elapsed_s) FROM reading WHERE recording_id = @recordingId
         AND elapsed_s >= @fromS AND elapsed_s < @untilS), @fromS),
       @text, 'bridge'`,
  );
  mender.mend(OF_NO_RECORDING, () => undefined);
  for (const recordingId of recordingsIn(database)) {
    mender.mend(recordingId, () => {
      const readings = shareOf(database, recordingId, ['reading']);
      const otherFacts = shareOf(database, recordingId, OTHERS);
      const text = writeSalvageNote({ readings, otherFacts }, lies);
      // In each job: deleting one leaves the others their note.
      for (const { fromS, untilS } of jobsIn(reader.marks(recordingId)))
        note.run({ recordingId, text, fromS, untilS: untilS ?? Number.MAX_VALUE });
    });
  }
}

const OTHERS = Object.keys(FACT_TABLES)
  .filter((kind): kind is FactTableName => kind in FACT_TABLES)
  .filter((kind) => kind !== 'reading');

function countAll(database: Database.Database): SalvageNote {
  const told = z.array(z.int()).parse(
    database
      .prepare(
        `SELECT recording_id FROM chain_link UNION SELECT recording_id FROM reading
         UNION SELECT id FROM recording`,
      )
      .pluck()
      .all(),
  );
  const shares = (kinds: readonly FactTableName[]) =>
    told.map((id) => shareOf(database, id, kinds)).reduce(sumOf, { saved: 0, atLeast: 0 });
  return { readings: shares(['reading']), otherFacts: shares(OTHERS) };
}

function sumOf(a: SavedShare, b: SavedShare): SavedShare {
  return { saved: a.saved + b.saved, atLeast: a.atLeast + b.atLeast };
}

function shareOf(
  database: Database.Database,
  recordingId: number,
  kinds: readonly FactTableName[],
): SavedShare {
  let [saved, told] = [0, 0];
  let lastReading = 0;
  for (const kind of kinds) {
    const table = FACT_TABLES[kind];
    saved += countOf(database, `SELECT COUNT(*) FROM ${table.table} WHERE ${whereOf(table)}`);
    if (kind === 'reading')
      lastReading = countOf(
        database,
        'SELECT COALESCE(MAX(reading_index), 0) FROM reading WHERE recording_id = ?',
      );
  }
  for (const span of toldSpans(database, recordingId)) {
    if (!kinds.some((kind) => isOfKind(span, kind))) continue;
    told += span.first === null || span.last === null ? 1 : span.last - span.first + 1;
    if (kinds.includes('reading')) lastReading = Math.max(lastReading, span.last ?? 0);
  }
  const given = lastReading === 0 ? 0 : readingsGiven(database, recordingId, lastReading);
  return { saved, atLeast: Math.max(saved, told, given) };

  function countOf(from: Database.Database, sql: string): number {
    return z.int().parse(from.prepare(sql).pluck().get(recordingId));
  }
}

function recordingsIn(database: Database.Database): number[] {
  const ids = database.prepare('SELECT id FROM recording ORDER BY id').pluck().all();
  return z.array(z.int()).parse(ids);
}
