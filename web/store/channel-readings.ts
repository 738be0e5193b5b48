/**
 * The readings of one sensor as columns, ordered by data time.
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
] as const;
type Column = (typeof COLUMNS)[number];
type Row = Readonly<Record<Column, number>>;

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
  };

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
    const first = fresh[0];
    if (first === undefined) return fresh;
    this.#merge(fresh.map(rowFromReading), this.rowFrom(first.elapsedS));
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
      condition: conditionAt(this.#columns.condition.at(row)),
    };
  }

  /** The latest reading by data time, or null before the first. */
  latest(): Reading | null {
    return this.length === 0 ? null : this.reading(this.length - 1);
  }

  #has(reading: Reading): boolean {
    for (let row = this.rowFrom(reading.elapsedS); row < this.length; row += 1) {
      if (this.#columns.elapsedS.at(row) !== reading.elapsedS) return false;
      if (this.#columns.index.at(row) === reading.index) return true;
    }
    return false;
  }

  /** One pass over the tail, however many readings belong before its end. */
  #merge(fresh: readonly Row[], from: number): void {
    const tail = this.#cut(from);
    let next = 0;
    for (const row of fresh) {
      for (let old = tail[next]; old !== undefined && before(old, row); old = tail[next]) {
        this.#push(old);
        next += 1;
      }
      this.#push(row);
    }
    for (const old of tail.slice(next)) this.#push(old);
  }

  #cut(from: number): Row[] {
    const rows: Row[] = [];
    for (let row = from; row < this.length; row += 1) rows.push(this.#row(row));
    for (const column of COLUMNS) this.#columns[column].cut(from);
    return rows;
  }

  #row(row: number): Row {
    return {
      index: this.#columns.index.at(row),
      boot: this.#columns.boot.at(row),
      sequence: this.#columns.sequence.at(row),
      elapsedS: this.#columns.elapsedS.at(row),
      pressurePa: this.#columns.pressurePa.at(row),
      temperatureC: this.#columns.temperatureC.at(row),
      condition: this.#columns.condition.at(row),
    };
  }

  #push(row: Row): void {
    for (const column of COLUMNS) this.#columns[column].push(row[column]);
  }
}

function before(a: Row, b: Row): boolean {
  return a.elapsedS < b.elapsedS || (a.elapsedS === b.elapsedS && a.index < b.index);
}

function rowFromReading(reading: Reading): Row {
  return {
    index: reading.index,
    boot: reading.boot,
    sequence: reading.sequence,
    elapsedS: reading.elapsedS,
    pressurePa: reading.pressurePa ?? Number.NaN,
    temperatureC: reading.temperatureC ?? Number.NaN,
    condition: CONDITIONS.indexOf(reading.condition),
  };
}

function nullFromNaN(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}

function conditionAt(position: number): Condition {
  return CONDITIONS[position] ?? 'fault';
}
