/**
 * The pages of a database file that SQLite refuses, with those of its write-ahead log laid over them: read by the
 * file format's own rules, each page for itself, so that a broken one hides no other.
 *
 * Source: sqlite.org, Database File Format, sections 1.3 (header), 1.5 (freelist), 4 (write-ahead log).
 */
import { closeSync, existsSync, fstatSync, openSync, readSync } from 'node:fs';

const MAGIC = 'SQLite format 3\0';
/** What a record is made with: counts where the header is gone. */
const USUAL_PAGE_BYTES = 4096;
const LOG_HEADER_BYTES = 32;
const FRAME_HEADER_BYTES = 24;

export class DamagedFile {
  readonly pageBytes: number;
  readonly #file: number | null;
  readonly #log: number | null;
  /** Where in the log the latest committed state of a page stands. */
  readonly #inLog = new Map<number, number>();
  readonly pageCount: number;
  readonly #unused = new Set<number>();

  constructor(path: string) {
    this.#file = existsSync(path) ? openSync(path, 'r') : null;
    this.#log = existsSync(`${path}-wal`) ? openSync(`${path}-wal`, 'r') : null;
    this.pageBytes = this.#readPageBytes();
    if (this.#log !== null) this.#readLog(this.#log);
    const inFile = this.#file === null ? 0 : fstatSync(this.#file).size / this.pageBytes;
    this.pageCount = Math.max(Math.floor(inFile), ...this.#inLog.keys());
    this.#findUnused();
  }

  close(): void {
    for (const file of [this.#file, this.#log]) if (file !== null) closeSync(file);
  }

  /** @param number from 1 on; null where there is no such page, or it is free: what stands there was taken out */
  page(number: number): Buffer | null {
    return this.#unused.has(number) ? null : this.#read(number);
  }

  #read(number: number): Buffer | null {
    const at = this.#inLog.get(number);
    if (at !== undefined) return this.#bytes(this.#log, at, this.pageBytes);
    return this.#bytes(this.#file, (number - 1) * this.pageBytes, this.pageBytes);
  }

  #bytes(file: number | null, at: number, length: number): Buffer | null {
    if (file === null || at < 0) return null;
    const bytes = Buffer.alloc(length);
    try {
      return readSync(file, bytes, 0, length, at) === length ? bytes : null;
    } catch {
      // The disk itself can't read it.
      return null;
    }
  }

  #readPageBytes(): number {
    const header = this.#bytes(this.#file, 0, 100);
    const bytes = header?.toString('latin1', 0, 16) === MAGIC ? header.readUInt16BE(16) : 0;
    const isSize = bytes >= 512 && (bytes & (bytes - 1)) === 0;
    return isSize ? bytes : USUAL_PAGE_BYTES;
  }

  /** Frames count up to the last commit before the first one that does not fit its checksum. */
  #readLog(log: number): void {
    const header = this.#bytes(log, 0, LOG_HEADER_BYTES);
    if (header === null || header.readUInt32BE(8) !== this.pageBytes) return;
    const isBigEndian = (header.readUInt32BE(0) & 1) === 1;
    let sum = checksum(header.subarray(0, 24), [0, 0], isBigEndian);
    if (sum[0] !== header.readUInt32BE(24) || sum[1] !== header.readUInt32BE(28)) return;
    const pending = new Map<number, number>();
    const frameBytes = FRAME_HEADER_BYTES + this.pageBytes;
    for (let at = LOG_HEADER_BYTES; ; at += frameBytes) {
      const frame = this.#bytes(log, at, frameBytes);
      if (!frame?.subarray(8, 16).equals(header.subarray(16, 24))) return;
      sum = checksum(frame.subarray(0, 8), sum, isBigEndian);
      sum = checksum(frame.subarray(FRAME_HEADER_BYTES), sum, isBigEndian);
      if (sum[0] !== frame.readUInt32BE(16) || sum[1] !== frame.readUInt32BE(20)) return;
      pending.set(frame.readUInt32BE(0), at + FRAME_HEADER_BYTES);
      if (frame.readUInt32BE(4) === 0) continue;
      for (const [page, place] of pending) this.#inLog.set(page, place);
      pending.clear();
    }
  }

  #findUnused(): void {
    const first = this.#read(1);
    if (first?.toString('latin1', 0, 16) !== MAGIC) return;
    let trunk = first.readUInt32BE(32);
    while (trunk > 0 && trunk <= this.pageCount && !this.#unused.has(trunk)) {
      this.#unused.add(trunk);
      const page = this.#read(trunk);
      if (page === null) return;
      const leaves = Math.min(page.readUInt32BE(4), this.pageBytes / 4 - 2);
      for (let leaf = 0; leaf < leaves; leaf += 1)
        this.#unused.add(page.readUInt32BE(8 + 4 * leaf));
      trunk = page.readUInt32BE(0);
    }
  }
}

type Sum = readonly [number, number];

function checksum(bytes: Buffer, [first, second]: Sum, isBigEndian: boolean): Sum {
  const wordAt = (at: number) => (isBigEndian ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at));
  let [a, b] = [first, second];
  for (let at = 0; at < bytes.length; at += 8) {
    a = (a + wordAt(at) + b) >>> 0;
    b = (b + wordAt(at + 4) + a) >>> 0;
  }
  return [a, b];
}
