/**
 * Takes a recording over from another record, within one transaction: all of it is there afterwards, or nothing.
 * The other record has been looked through before (prepare.ts), and is only read.
 */
import Database from 'better-sqlite3';
import { z } from 'zod';
import type { Origin, RecordedSensor, TakenFrom } from '../../protocol/recording.ts';
import type { FactRow } from './chain.ts';
import { ChainWriter } from './chain-writer.ts';
import { FACT_KINDS, type FactTableName } from './fact-tables.ts';
import { factsOf } from './facts-of.ts';
import { MovedRows } from './moved-rows.ts';
import { keptSensorSchema, RecordReader } from './record-reader.ts';
import { RowWriter } from './row-writer.ts';

export interface TakeOver {
  /** The other record's database. */
  readonly file: string;
  readonly recordingIdThere: number;
  readonly recordingId: number;
  /**
   * Null: into an empty record, as it was, number for number and link for link. Else it gets numbers of its own,
   * links that say when it was added, and the fact of where it was taken from.
   */
  readonly taken: (TakenFrom & { readonly atMs: number }) | null;
  /** What it is called here; null: as it was there. */
  readonly named: { readonly origin: Origin; readonly title: string } | null;
}

/** Facts in a link: few links for a long recording, and none that fills the memory. */
const MOST_IN_A_LINK = 5000;

export function takeOver(database: Database.Database, wish: TakeOver): void {
  const source = new Database(wish.file, { readonly: true, fileMustExist: true });
  try {
    database.transaction(() => {
      if (wish.taken === null) copyAsItWas(source, database, wish.recordingIdThere);
      else addLater(source, database, wish, wish.taken);
    })();
  } finally {
    source.close();
  }
}

function copyAsItWas(source: Database.Database, database: Database.Database, id: number): void {
  const rows = new RowWriter(database);
  for (const kind of FACT_KINDS) {
    for (const { row } of factsOf(source, kind, id)) rows.add(kind, row);
  }
  const link = database.prepare('INSERT INTO chain_link VALUES (?, ?, ?, ?)');
  const links = source.prepare('SELECT * FROM chain_link WHERE recording_id = ? ORDER BY number');
  for (const row of links.raw().iterate(id)) link.run(...z.array(z.unknown()).parse(row));
}

function addLater(
  source: Database.Database,
  database: Database.Database,
  { recordingIdThere, recordingId, named }: TakeOver,
  taken: NonNullable<TakeOver['taken']>,
): void {
  const rows = new RowWriter(database);
  const chain = new ChainWriter(database);
  const moved = new MovedRows(recordingId);
  let inLink = 0;
  const add = (kind: FactTableName, row: FactRow): void => {
    const { key, numbered } = moved.withId(kind, row, rows.add(kind, row));
    chain.add(kind, recordingId, key, numbered);
    inLink += 1;
    if (inLink < MOST_IN_A_LINK) return;
    chain.seal(taken.atMs);
    inLink = 0;
  };
  const there = new RecordReader(source).recording(recordingIdThere);
  if (there === null) throw new Error(`recording ${recordingIdThere} is not in ${source.name}`);
  const { origin, title } = named ?? there;
  add('begin', [recordingId, origin, there.startedAtMs, title]);
  for (const kind of FACT_KINDS) {
    if (!MOVED.includes(kind)) continue;
    for (const { row } of factsOf(source, kind, recordingIdThere)) {
      const own = moved.row(kind, row);
      add(kind, kind === 'sensor' ? withWhatWasSaid(own, there.sensors) : own);
    }
  }
  // Nobody goes on with it here.
  if (there.open) add('end', [recordingId, taken.atMs]);
  const was = [taken.origin, taken.recordingId, taken.startedAtMs, taken.title, taken.hash];
  const how = [taken.held ? 1 : 0, taken.softwareVersion, taken.atMs];
  add('taken_from', [recordingId, taken.format, ...was, ...how]);
  chain.seal(taken.atMs);
}

/**
 * What was said of sensors, and what was prepared, holds for the place where it was; where it had been taken from before stands in
 * the new fact of that kind.
 */
const NOT_MOVED: readonly FactTableName[] = [
  'begin',
  'label',
  'calibration',
  'prepared',
  'taken_from',
];
const MOVED = FACT_KINDS.filter((kind) => !NOT_MOVED.includes(kind));

/** A name that is given to the sensor here changes nothing of what was recorded elsewhere. */
function withWhatWasSaid(row: FactRow, sensors: readonly RecordedSensor[]): FactRow {
  const [id = null, recordingId = null, channel = null, identity = null] = row;
  const { label = null, calibratedOn = null } = sensors[Number(channel)] ?? {};
  const known = keptSensorSchema.parse(JSON.parse(String(identity)));
  const kept = { ...known, said: { label, calibratedOn } };
  return [id, recordingId, channel, JSON.stringify(kept)];
}
