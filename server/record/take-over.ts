/**
 * Takes a recording over from another record, within one transaction: all of it is there afterwards, or nothing.
 * The other record has been looked through before (prepare.ts), and is only read.
 */
import Database from 'better-sqlite3';
import { z } from 'zod';
import type { Origin, SensorIdentity } from '../../protocol/recording.ts';
import { sensorIdentitySchema } from '../../protocol/recording.ts';
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import type { FactRow } from './chain.ts';
import { ChainWriter } from './chain-writer.ts';
import { FACT_TABLES, type FactTableName } from './fact-tables.ts';
import { FACT_KINDS, factsOf } from './facts-of.ts';
import { RecordReader } from './record-reader.ts';
import { RowWriter } from './row-writer.ts';

/** Where a recording was taken from, as a fact of it. */
export interface TakenFromRow {
  readonly format: string;
  /** The first one, where it had been taken from elsewhere there as well. */
  readonly origin: Origin;
  readonly recordingIdThere: number;
  readonly startedAtMs: number;
  readonly title: string;
  /** Of its last link there; empty where it had none. */
  readonly hash: string;
  /** Whether its chain held there. */
  readonly held: boolean;
  /** Of the program that wrote the file; empty where that is not known. */
  readonly softwareVersion: string;
  readonly atMs: number;
}

export interface TakeOver {
  /** The other record's database. */
  readonly file: string;
  readonly recordingIdThere: number;
  readonly recordingId: number;
  /**
   * Null: into an empty record, as it was, number for number and link for link. Else it gets numbers of its own,
   * links that say when it was added, and the fact of where it was taken from.
   */
  readonly taken: TakenFromRow | null;
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
  taken: TakenFromRow,
): void {
  const rows = new RowWriter(database);
  const chain = new ChainWriter(database);
  let inLink = 0;
  const add = (kind: FactTableName, row: FactRow): void => {
    const id = rows.add(kind, row);
    const { columns, key } = FACT_TABLES[kind];
    const names: readonly string[] = columns;
    const kept = row.map((value, place) => (value === null && names[place] === 'id' ? id : value));
    chain.add(kind, recordingId, key === null ? null : Number(kept[names.indexOf(key)]), kept);
    inLink += 1;
    if (inLink < MOST_IN_A_LINK) return;
    chain.seal(taken.atMs);
    inLink = 0;
  };
  const there = new RecordReader(source).recording(recordingIdThere);
  if (there === null) throw new Error(`recording ${recordingIdThere} is not in ${source.name}`);
  for (const kind of FACT_KINDS) {
    // What was said of sensors holds for the place where it was said, and so does where it was taken from before.
    if (kind === 'label' || kind === 'taken_from') continue;
    for (const { row } of factsOf(source, kind, recordingIdThere)) {
      const moved = withNewNumbers(kind, row, recordingId);
      if (kind === 'sensor') add(kind, withLabel(moved, there.sensors));
      else if (kind === 'begin' && named !== null) {
        add(kind, [recordingId, named.origin, moved[2] ?? null, named.title]);
      } else add(kind, moved);
    }
  }
  // Nobody goes on with it here.
  if (there.open) add('end', [recordingId, taken.atMs]);
  add('taken_from', takenFromRow(recordingId, taken));
  chain.seal(taken.atMs);
}

function withNewNumbers(kind: FactTableName, row: FactRow, recordingId: number): FactRow {
  const names: readonly string[] = FACT_TABLES[kind].columns;
  return row.map((value, place) => {
    if (names[place] === 'recording_id') return recordingId;
    if (names[place] !== 'id') return value;
    return kind === 'begin' ? recordingId : null;
  });
}

/** A name that is given to the sensor here changes nothing of what was recorded elsewhere. */
function withLabel(
  row: FactRow,
  sensors: readonly (SensorIdentity & { readonly label: SensorLabel | null })[],
): FactRow {
  const [id = null, recordingId = null, channel = null, identity = null] = row;
  const label = sensors[Number(channel)]?.label ?? null;
  const known = keptIdentitySchema.parse(JSON.parse(String(identity)));
  return [id, recordingId, channel, JSON.stringify({ ...known, label })];
}

const keptIdentitySchema = sensorIdentitySchema.extend({ label: z.unknown() });

function takenFromRow(recordingId: number, taken: TakenFromRow): FactRow {
  return [
    recordingId,
    taken.format,
    taken.origin,
    taken.recordingIdThere,
    taken.startedAtMs,
    taken.title,
    taken.hash,
    taken.held ? 1 : 0,
    taken.softwareVersion,
    taken.atMs,
  ];
}
