/**
 * The readings of one sensor as columns, ordered by data time: 64 bytes each, whatever comes.
 *
 * History and live readings take the same way in. A reading is known by its index: the same one may
 * come again after a lost connection, and one from the sensor's own store may belong in the middle.
 */
import { CONDITIONS, type Condition, type Reading } from '../../protocol/reading.ts';
import { Growable } from './growable.ts';

const COLUMNS = [
  'index',
  'boot',
  'sequence',
  'elapsedS',
  'pressurePa',
  'temperatureC',
  'condition',
  'notes',
] as const;
type Column = (typeof COLUMNS)[number];
type Row = Readonly<Record<Column, number>>;

/** What is known of a reading beside what it says, as bits of a column. */
const CAME_LATE = 1;
const AFTER_GAP = 2;

export class ChannelReadings {
  readonly channel: number;
  readonly #columns: Readonly<Record<Column, Growable>> = {
    index: new Growable(),
    boot: new Growable(),
    sequence: new Growable(),
    elapsedS: new Growable(),
    pressurePa: new Growable(),
    temperatureC: new Growable(),
    condition: new Growable(),
    notes: new Growable(),
  };
  /** The latest data time of all that was recorded so far, s. */
  #furthestS = Number.NEGATIVE_INFINITY;

  constructor(channel: number) {
    this.channel = channel;
  }

  get length(): number {
    return this.#columns.elapsedS.length;
  }

  /** Takes a batch in any order and answers the readings that were new, by data time. */
  insert(batch: readonly Reading[]): Reading[] {
    const fresh = batch
      .filter((reading) => reading.channel === this.channel && !this.#has(reading))
      .sort((a, b) => a.elapsedS - b.elapsedS || a.index - b.index)
      .filter((reading, at, all) => reading.index !== all[at - 1]?.index);
    if (fresh.length > 0) this.#merge(fresh, this.#cameLate(fresh));
    return fresh;
  }

  /** The first row at or after this data time; `length` if there is none. */
  rowFrom(elapsedS: number): number {
    let low = 0;
    let high = this.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (this.#columns.elapsedS.at(middle) < elapsedS) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  elapsedS(row: number): number {
    return this.#columns.elapsedS.at(row);
  }

  /** NaN where the sensor knew no pressure. */
  pressurePa(row: number): number {
    return this.#columns.pressurePa.at(row);
  }

  boot(row: number): number {
    return this.#columns.boot.at(row);
  }

  sequence(row: number): number {
    return this.#columns.sequence.at(row);
  }

  condition(row: number): Condition {
    return conditionAt(this.#columns.condition.at(row));
  }

  /** Whether it was recorded after a reading of a later time, as one from the sensor's own store. */
  cameLate(row: number): boolean {
    return (this.#columns.notes.at(row) & CAME_LATE) !== 0;
  }

  /** Whether something is missing between it and the reading before, as `noteGap` was told. */
  isAfterGap(row: number): boolean {
    return (this.#columns.notes.at(row) & AFTER_GAP) !== 0;
  }

  noteGap(row: number, isAfterGap: boolean): void {
    const { notes } = this.#columns;
    notes.set(row, (notes.at(row) & ~AFTER_GAP) | (isAfterGap ? AFTER_GAP : 0));
  }

  /** The row of a reading that is held. @throws RangeError for any other. */
  rowOf({ elapsedS, index }: Pick<Reading, 'elapsedS' | 'index'>): number {
    const row = this.#rowBefore(elapsedS, index);
    if (this.#columns.index.at(row) !== index) throw new RangeError(`no reading ${index}`);
    return row;
  }

  /** One row as a reading. @throws RangeError outside the rows. */
  reading(row: number): Reading {
    return {
      index: this.#columns.index.at(row),
      channel: this.channel,
      boot: this.#columns.boot.at(row),
      sequence: this.#columns.sequence.at(row),
      elapsedS: this.#columns.elapsedS.at(row),
      pressurePa: nullFromNaN(this.#columns.pressurePa.at(row)),
      temperatureC: nullFromNaN(this.#columns.temperatureC.at(row)),
      condition: this.condition(row),
    };
  }

  /** The latest reading by data time, or null before the first. */
  latest(): Reading | null {
    return this.length === 0 ? null : this.reading(this.length - 1);
  }

  #has({ elapsedS, index }: Reading): boolean {
    const row = this.#rowBefore(elapsedS, index);
    return row < this.length && this.#columns.index.at(row) === index;
  }

  /** The first row that does not come before a reading of this time and index. */
  #rowBefore(elapsedS: number, index: number): number {
    let row = this.rowFrom(elapsedS);
    const { elapsedS: times, index: indices } = this.#columns;
    while (row < this.length && times.at(row) === elapsedS && indices.at(row) < index) row += 1;
    return row;
  }

  /** The record numbers readings as they come, and its stream keeps that order. */
  #cameLate(fresh: readonly Reading[]): ReadonlySet<number> {
    const late = new Set<number>();
    for (const { index, elapsedS } of [...fresh].sort((a, b) => a.index - b.index)) {
      if (elapsedS < this.#furthestS) late.add(index);
      else this.#furthestS = elapsedS;
    }
    return late;
  }

  /** From the end on, so that each row that makes room is moved once, with all that go as far. */
  #merge(fresh: readonly Reading[], late: ReadonlySet<number>): void {
    const places = fresh.map(({ elapsedS, index }) => this.#rowBefore(elapsedS, index));
    let end = this.length;
    for (const column of COLUMNS) this.#columns[column].extend(fresh.length);
    for (let at = fresh.length - 1; at >= 0; at -= 1) {
      const reading = fresh[at];
      const place = places[at];
      if (reading === undefined || place === undefined) continue;
      const row = rowFromReading(reading, late.has(reading.index));
      for (const column of COLUMNS) {
        if (place < end) this.#columns[column].move(place, end, at + 1);
        this.#columns[column].set(place + at, row[column]);
      }
      end = place;
    }
  }
}

function rowFromReading(reading: Reading, isLate: boolean): Row {
  return {
    index: reading.index,
    boot: reading.boot,
    sequence: reading.sequence,
    elapsedS: reading.elapsedS,
    pressurePa: reading.pressurePa ?? Number.NaN,
    temperatureC: reading.temperatureC ?? Number.NaN,
    condition: CONDITIONS.indexOf(reading.condition),
    notes: isLate ? CAME_LATE : 0,
  };
}

function nullFromNaN(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}

function conditionAt(position: number): Condition {
  return CONDITIONS[position] ?? 'fault';
}
