/**
 * Readings as rows of numbers: on their way to the writer's thread and back, and for the chain, which is reckoned
 * from these bytes. Handed over as objects and hashed as text they would cost more than writing them does.
 */
import {
  CONDITIONS,
  type Condition,
  type ReadingColumns,
  type ReceivedReading,
} from '../../protocol/reading.ts';
import type { FactRow } from './chain.ts';

/** Numbers of a reading, in the order of `packReadings`: that of the table's columns after the two of its key. */
const WIDTH = 9;
/** The place of the data time among them. */
const ELAPSED_S = 5;
/** What the sensor does not know. Unlike NaN it has one pattern of bits. */
const UNKNOWN = -Infinity;

/** A whole number of rows. */
export type PackedReadings = Float64Array<ArrayBuffer>;

export function packReadings(readings: readonly ReceivedReading[]): PackedReadings {
  const packed = new Float64Array(readings.length * WIDTH);
  let at = 0;
  for (const reading of readings) {
    packed[at] = reading.channel;
    packed[at + 1] = reading.boot;
    packed[at + 2] = reading.sequence;
    packed[at + 3] = reading.uptimeMs;
    packed[at + 4] = signless(reading.arrivedS);
    packed[at + 5] = signless(reading.elapsedS);
    packed[at + 6] = signless(reading.pressurePa ?? UNKNOWN);
    packed[at + 7] = signless(reading.temperatureC ?? UNKNOWN);
    packed[at + 8] = CONDITIONS.indexOf(reading.condition);
    at += WIDTH;
  }
  return packed;
}

/** The rows of a table, which the writer packed once: column by column as the fact's table has them. */
export function packRows(rows: readonly FactRow[]): PackedReadings {
  const packed = new Float64Array(rows.length * WIDTH);
  rows.forEach((row, place) => {
    const [, , ...values] = row;
    packed.set(values.map(asNumber), place * WIDTH);
  });
  return packed;
}

function asNumber(value: FactRow[number]): number {
  if (typeof value === 'string') return CONDITIONS.findIndex((condition) => condition === value);
  return value ?? UNKNOWN;
}

/** Minus nought is kept as nought. */
function signless(value: number): number {
  return value + 0;
}

/** As the chain counts them; each number is eight bytes, the lowest first. */
export function bytesOf(packed: PackedReadings): Uint8Array {
  return new Uint8Array(packed.buffer, packed.byteOffset, packed.byteLength);
}

export function joined(parts: readonly PackedReadings[]): PackedReadings {
  const all = new Float64Array(parts.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** Those of which the data time is as wanted; the same where all are. */
export function whereElapsed(
  packed: PackedReadings,
  isWanted: (elapsedS: number) => boolean,
): PackedReadings {
  const rows = Array.from({ length: countOf(packed) }, (_, row) => row * WIDTH);
  const kept = rows.filter((at) => isWanted(numberAt(packed, at + ELAPSED_S)));
  if (kept.length === rows.length) return packed;
  return joined(kept.map((at) => packed.slice(at, at + WIDTH)));
}

export function countOf(packed: PackedReadings): number {
  return packed.length / WIDTH;
}

/** Adds the values of a row, as its table's columns have them. */
export function pushRow(
  values: (number | string | null)[],
  packed: PackedReadings,
  row: number,
): void {
  const at = row * WIDTH;
  for (let place = at; place < at + 6; place += 1) values.push(numberAt(packed, place));
  values.push(knownAt(packed, at + 6), knownAt(packed, at + 7), conditionAt(packed, at + 8));
}

/** As the stream tells of them. @param firstIndex the index that the record gave to the first of them */
export function columnsFromPacked(packed: PackedReadings, firstIndex: number): ReadingColumns {
  const columns: ReadingColumns = {
    index: [],
    channel: [],
    boot: [],
    sequence: [],
    elapsedS: [],
    pressurePa: [],
    temperatureC: [],
    condition: [],
  };
  for (let at = 0; at < packed.length; at += WIDTH) {
    columns.index.push(firstIndex + columns.index.length);
    columns.channel.push(numberAt(packed, at));
    columns.boot.push(numberAt(packed, at + 1));
    columns.sequence.push(numberAt(packed, at + 2));
    columns.elapsedS.push(numberAt(packed, at + 5));
    columns.pressurePa.push(knownAt(packed, at + 6));
    columns.temperatureC.push(knownAt(packed, at + 7));
    columns.condition.push(conditionAt(packed, at + 8));
  }
  return columns;
}

function numberAt(packed: PackedReadings, at: number): number {
  return packed[at] ?? UNKNOWN;
}

function knownAt(packed: PackedReadings, at: number): number | null {
  const value = numberAt(packed, at);
  return value === UNKNOWN ? null : value;
}

function conditionAt(packed: PackedReadings, at: number): Condition {
  const condition = CONDITIONS[numberAt(packed, at)];
  if (condition === undefined) throw new RangeError(`a packed reading ends before number ${at}`);
  return condition;
}
