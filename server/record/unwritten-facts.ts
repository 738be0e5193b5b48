/**
 * Where a record turns out to be damaged while it is written, facts go to a file beside it, and from there into
 * the record that the next start makes of it. Each fact is on the disk before the next one is taken.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { z } from 'zod';
import type { Fact } from './writer-messages.ts';

const FILE = 'record.unwritten';
const LENGTH_BYTES = 4;
/** Written by this program alone: that it is whole and is a fact is all there is to ask. */
const factSchema = z.custom<Fact>(
  (value) => z.looseObject({ kind: z.string() }).safeParse(value).success,
);

export class UnwrittenFacts {
  readonly path: string;
  #file: number | null = null;

  constructor(dataFolder: string) {
    this.path = join(dataFolder, FILE);
  }

  get exists(): boolean {
    return existsSync(this.path);
  }

  add(facts: readonly Fact[]): void {
    this.#file ??= openSync(this.path, 'a');
    for (const fact of facts) {
      const bytes = serialize(fact);
      const length = Buffer.alloc(LENGTH_BYTES);
      length.writeUInt32LE(bytes.length);
      writeSync(this.#file, Buffer.concat([length, bytes]));
    }
    fsyncSync(this.#file);
  }

  close(): void {
    if (this.#file !== null) closeSync(this.#file);
    this.#file = null;
  }

  /** Up to the first one that is not whole: it was being written when the power went. */
  read(): Fact[] {
    const bytes = readFileSync(this.path);
    const facts: Fact[] = [];
    for (let at = 0; at + LENGTH_BYTES <= bytes.length;) {
      const end = at + LENGTH_BYTES + bytes.readUInt32LE(at);
      if (end > bytes.length) break;
      facts.push(factSchema.parse(deserialize(bytes.subarray(at + LENGTH_BYTES, end))));
      at = end;
    }
    return facts;
  }

  /** They are in the record now; the file is kept under a name with the date. */
  setAside(nowMs: number): void {
    const stamp = new Date(nowMs).toISOString().slice(0, 19).replaceAll(':', '-');
    renameSync(this.path, `${this.path}-until-${stamp}`);
  }
}
