/** A recording of another record beside those that are here: with numbers and links of its own. */
import type Database from 'better-sqlite3';
import type { RecordedSensor } from '../../protocol/recording.ts';
import type { FactRow } from './chain.ts';
import { ChainWriter, type NewLink, insertLinks } from './chain-writer.ts';
import { FACT_KINDS, type FactTableName } from './fact-tables.ts';
import { factsOf } from './facts-of.ts';
import { MovedRows } from './moved-rows.ts';
import { ReadingInserts } from './reading-inserts.ts';
import type { ReadingRun } from './reading-runs.ts';
import { keptSensorSchema, RecordReader } from './record-reader.ts';
import { RowWriter } from './row-writer.ts';
import type { TakeOver, Taking } from './taking.ts';

/** Facts in a link: few links for a long recording, and none that fills the memory. */
const MOST_IN_A_LINK = 5000;

export class TakenLater implements Taking {
  readonly #source: Database.Database;
  readonly #database: Database.Database;
  readonly #wish: TakeOver;
  readonly #taken: NonNullable<TakeOver['taken']>;
  readonly #rows: RowWriter;
  readonly #readings: ReadingInserts;
  readonly #moved: MovedRows;
  readonly #chain: ChainWriter;
  /** Written with the last slice: a chain is never shortened, and until then all of it may go again. */
  readonly #links: NewLink[] = [];
  #inLink = 0;

  constructor(
    source: Database.Database,
    database: Database.Database,
    wish: TakeOver,
    taken: NonNullable<TakeOver['taken']>,
  ) {
    this.#source = source;
    this.#database = database;
    this.#wish = wish;
    this.#taken = taken;
    this.#rows = new RowWriter(database);
    this.#readings = new ReadingInserts(database);
    this.#moved = new MovedRows(wish.recordingId);
    this.#chain = new ChainWriter(database, (link) => this.#links.push(link));
  }

  readings(runs: readonly ReadingRun[]): void {
    const { recordingId } = this.#wish;
    for (const { firstIndex, packed } of runs) {
      this.#readings.write(recordingId, firstIndex, packed);
      this.#chain.addReadings(recordingId, firstIndex, packed);
    }
    this.#seal();
  }

  begin(): void {
    const { recordingId, named } = this.#wish;
    const there = this.#there();
    const { origin, title } = named ?? there;
    this.#add('begin', [recordingId, origin, there.startedAtMs, title]);
  }

  rest(): void {
    const { recordingId, recordingIdThere } = this.#wish;
    const there = this.#there();
    for (const kind of MOVED) {
      for (const { row } of factsOf(this.#source, kind, recordingIdThere)) {
        const own = this.#moved.row(kind, row);
        this.#add(kind, kind === 'sensor' ? withWhatWasSaid(own, there.sensors) : own);
      }
    }
    const { atMs, format, origin, startedAtMs, title, hash, held, softwareVersion } = this.#taken;
    // Nobody goes on with it here.
    if (there.open) this.#add('end', [recordingId, atMs]);
    const was = [origin, this.#taken.recordingId, startedAtMs, title, hash];
    this.#add('taken_from', [recordingId, format, ...was, held ? 1 : 0, softwareVersion, atMs]);
    this.#seal();
    insertLinks(this.#database, this.#links);
  }

  #there() {
    const { recordingIdThere } = this.#wish;
    const there = new RecordReader(this.#source).recording(recordingIdThere);
    if (there !== null) return there;
    throw new Error(`recording ${recordingIdThere} is not in ${this.#source.name}`);
  }

  #add(kind: FactTableName, row: FactRow): void {
    const { key, numbered } = this.#moved.withId(kind, row, this.#rows.add(kind, row));
    this.#chain.add(kind, this.#wish.recordingId, key, numbered);
    this.#inLink += 1;
    if (this.#inLink >= MOST_IN_A_LINK) this.#seal();
  }

  #seal(): void {
    this.#chain.seal(this.#taken.atMs);
    this.#inLink = 0;
  }
}

/**
 * Readings go before; what was said of sensors, and what was prepared, holds for the place where it was; where it had
 * been taken from before stands in the new fact of that kind.
 */
const NOT_MOVED: readonly FactTableName[] = [
  'begin',
  'reading',
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
