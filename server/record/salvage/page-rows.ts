/**
 * The rows that stand in one page of a database file.
 *
 * Source: sqlite.org, Database File Format, sections 1.6 (pages of a b-tree), 1.7 (overflow) and 2.1 (rows).
 */
import type { DamagedFile } from './damaged-file.ts';

export type Value = string | number | Uint8Array | null;

export interface PageRow {
  /** Null where the table has none. */
  readonly rowid: number | null;
  readonly values: readonly Value[];
}

const LEAF_OF_TABLE = 13;
const LEAF_WITHOUT_ROWID = 10;
/** These hold rows as well. */
const INNER_WITHOUT_ROWID = 2;

/**
 * @returns null where it is no page with rows, or one of its rows can't be read: then what looks like others of
 *   it may be wrong, and a wrong reading is worse than a missing one
 */
export function rowsOfPage(file: DamagedFile, number: number): PageRow[] | null {
  const page = file.page(number);
  if (page === null) return null;
  const at = number === 1 ? 100 : 0;
  const kind = page[at];
  if (kind !== LEAF_OF_TABLE && kind !== LEAF_WITHOUT_ROWID && kind !== INNER_WITHOUT_ROWID)
    return null;
  try {
    const pointersAt = at + (kind === INNER_WITHOUT_ROWID ? 12 : 8);
    const rows: PageRow[] = [];
    for (let cell = 0; cell < page.readUInt16BE(at + 3); cell += 1)
      rows.push(rowOfCell(file, page, kind, page.readUInt16BE(pointersAt + 2 * cell)));
    return rows;
  } catch (error) {
    // It points beyond its own end, or says what no row can be.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function rowOfCell(file: DamagedFile, page: Buffer, kind: number, cellAt: number): PageRow {
  let at = kind === INNER_WITHOUT_ROWID ? cellAt + 4 : cellAt;
  const [length, afterLength] = varint(page, at);
  at = afterLength;
  let rowid: number | null = null;
  if (kind === LEAF_OF_TABLE) [rowid, at] = varint(page, at);
  return { rowid, values: valuesOf(payload(file, page, kind, at, length)) };
}

function payload(
  file: DamagedFile,
  page: Buffer,
  kind: number,
  at: number,
  length: number,
): Buffer {
  const usable = file.pageBytes;
  const most = kind === LEAF_OF_TABLE ? usable - 35 : Math.floor(((usable - 12) * 64) / 255) - 23;
  if (length <= most) return within(page, at, length);
  const least = Math.floor(((usable - 12) * 32) / 255) - 23;
  const wanted = least + ((length - least) % (usable - 4));
  const here = wanted <= most ? wanted : least;
  const parts = [within(page, at, here)];
  let next = page.readUInt32BE(at + here);
  for (let left = length - here; left > 0; left -= usable - 4) {
    const more = file.page(next);
    if (more === null) throw new RangeError('the rest of a row is not there');
    parts.push(within(more, 4, Math.min(left, usable - 4)));
    next = more.readUInt32BE(0);
  }
  return Buffer.concat(parts);
}

function valuesOf(record: Buffer): Value[] {
  const [headerBytes, firstAt] = varint(record, 0);
  const values: Value[] = [];
  let valueAt = headerBytes;
  for (let at = firstAt; at < headerBytes;) {
    const [type, after] = varint(record, at);
    const [value, bytes] = valueOf(record, type, valueAt);
    values.push(value);
    valueAt += bytes;
    at = after;
  }
  if (valueAt !== record.length) throw new RangeError('a row is not as long as it says');
  return values;
}

/** Bytes of the integers of types 1 to 6. */
const INTEGER_BYTES = [0, 1, 2, 3, 4, 6, 8];

function valueOf(record: Buffer, type: number, at: number): [value: Value, bytes: number] {
  if (type === 0) return [null, 0];
  if (type === 6) return [Number(record.readBigInt64BE(at)), 8];
  const integerBytes = INTEGER_BYTES[type];
  if (integerBytes !== undefined) return [record.readIntBE(at, integerBytes), integerBytes];
  if (type === 7) return [record.readDoubleBE(at), 8];
  if (type === 8 || type === 9) return [type - 8, 0];
  if (type < 12) throw new RangeError('no such type of value');
  const bytes = within(record, at, Math.floor((type - 12) / 2));
  return [type % 2 === 0 ? Uint8Array.from(bytes) : bytes.toString('utf8'), bytes.length];
}

function within(bytes: Buffer, at: number, length: number): Buffer {
  if (at + length > bytes.length) throw new RangeError('beyond the end');
  return bytes.subarray(at, at + length);
}

/** Seven bits a byte, the highest first; a ninth byte counts whole. */
function varint(bytes: Buffer, from: number): [value: number, after: number] {
  let value = 0;
  for (let at = from; at < from + 8; at += 1) {
    const byte = bytes.readUInt8(at);
    value = value * 128 + (byte & 127);
    if (byte < 128) return [value, at + 1];
  }
  return [value * 256 + bytes.readUInt8(from + 8), from + 9];
}
