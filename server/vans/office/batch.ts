/**
 * Takes messages into the database, many in one transaction with the high-water marks: each reading once, in the
 * order of its numbers, whatever the broker sends twice or not at all. What is missing is asked for again.
 */
import { readingsFromColumns } from '../../../protocol/reading.ts';
import type { VanAsked, VanInventory, VanReadings } from '../../../protocol/van-messages.ts';
import type { RecordingKey } from '../../../protocol/van-topics.ts';
import {
  beginRecordings,
  findRecordings,
  type KnownRecording,
  nameOf,
  type OfVan,
} from './known-recordings.ts';
import type { Asking } from './office-database.ts';
import { deleteRecording, putFacts } from './put-facts.ts';
import { type NewReading, putReadings, raiseMarks } from './put-readings.ts';
import { putOutlook, putState } from './put-latest.ts';
import { keysOf, type VanMessage } from './understood.ts';

export interface AskedOfVan {
  readonly van: string;
  readonly asked: VanAsked;
}

export interface BatchOutcome {
  /** Readings that went in. */
  readings: number;
  /** Messages that brought nothing new. */
  repeats: number;
  /** What is missing before a message that came, or of what a van says that it has sent. */
  readonly asked: AskedOfVan[];
}

export class Batch {
  readonly outcome: BatchOutcome = { readings: 0, repeats: 0, asked: [] };
  readonly #client: Asking;
  #known = new Map<string, KnownRecording>();
  #waiting: NewReading[] = [];
  readonly #risen = new Set<KnownRecording>();

  /** @param client within a transaction */
  constructor(client: Asking) {
    this.#client = client;
  }

  async take(messages: readonly VanMessage[]): Promise<void> {
    const wanted = messages.flatMap((message) => keysWithVan(message));
    this.#known = await findRecordings(this.#client, wanted);
    await this.#begin(messages.filter(({ kind }) => kind !== 'inventory').flatMap(keysWithVan));
    for (const message of messages) await this.#takeOne(message);
    await this.#write();
  }

  async #begin(keys: readonly OfVan[]): Promise<void> {
    const missing = new Map(
      keys.filter((key) => !this.#known.has(nameOf(key))).map((key) => [nameOf(key), key]),
    );
    const begun = await beginRecordings(this.#client, [...missing.values()]);
    for (const [name, recording] of begun) this.#known.set(name, recording);
  }

  async #takeOne(message: VanMessage): Promise<void> {
    const { van, kind, body } = message;
    if (kind === 'inventory') return this.#compare(van, body);
    if (kind === 'state') return putState(this.#client, van, body);
    const [key] = keysWithVan(message);
    const recording = key === undefined ? undefined : this.#known.get(nameOf(key));
    if (recording === undefined || recording.isDeleted) return;
    switch (kind) {
      case 'readings':
        this.#takeReadings(van, recording, body);
        return;
      case 'facts':
        if (body.version <= recording.factsVersion) return;
        // A stretch that is deleted takes those readings along.
        await this.#write();
        await putFacts(this.#client, recording.id, body);
        recording.factsVersion = body.version;
        recording.deleted = body.deleted;
        return;
      case 'deleted':
        await this.#delete(recording);
        return;
      case 'outlook':
        await putOutlook(this.#client, recording.id, body);
    }
  }

  #takeReadings(van: string, recording: KnownRecording, body: VanReadings): void {
    const last = body.columns.index.at(-1) ?? 0;
    if (last <= recording.lastIndex) {
      this.outcome.repeats += 1;
      return;
    }
    if (body.after > recording.lastIndex) {
      this.#ask(van, body, recording);
      return;
    }
    // Facts go out before readings: without them, a message is missing.
    if (recording.factsVersion === 0) this.#ask(van, body, { ...recording, lastIndex: last });
    const fresh = readingsFromColumns(body.columns).filter(
      ({ index, elapsedS }) => index > recording.lastIndex && !isDeleted(recording, elapsedS),
    );
    for (const reading of fresh) this.#waiting.push({ ...reading, recordingId: recording.id });
    recording.lastIndex = last;
    this.#risen.add(recording);
  }

  async #delete(recording: KnownRecording): Promise<void> {
    await this.#write();
    await deleteRecording(this.#client, recording.id);
    recording.isDeleted = true;
  }

  async #compare(van: string, { recordings }: VanInventory): Promise<void> {
    for (const { lastIndex, factsVersion, deleted, ...key } of recordings) {
      const here = this.#known.get(nameOf({ van, ...key }));
      if (deleted) {
        if (here !== undefined && !here.isDeleted) await this.#delete(here);
      } else if (here === undefined) this.#ask(van, key, { lastIndex: 0, factsVersion: 0 });
      else if (here.isDeleted) continue;
      else if (here.lastIndex < lastIndex || here.factsVersion < factsVersion)
        this.#ask(van, key, here);
    }
  }

  #ask(
    van: string,
    { recordingId, startedAtMs }: RecordingKey,
    { lastIndex, factsVersion }: Pick<KnownRecording, 'lastIndex' | 'factsVersion'>,
  ): void {
    const asked = { recordingId, startedAtMs, afterIndex: lastIndex, factsVersion };
    this.outcome.asked.push({ van, asked });
  }

  /** What waits goes in with the marks that it raises. */
  async #write(): Promise<void> {
    const rows = this.#waiting;
    this.#waiting = [];
    if (rows.length > 0) await putReadings(this.#client, rows);
    this.outcome.readings += rows.length;
    const risen = [...this.#risen];
    this.#risen.clear();
    if (risen.length > 0) await raiseMarks(this.#client, risen);
  }
}

function keysWithVan(message: VanMessage): OfVan[] {
  return keysOf(message).map(({ recordingId, startedAtMs }) => ({
    van: message.van,
    recordingId,
    startedAtMs,
  }));
}

function isDeleted({ deleted }: KnownRecording, elapsedS: number): boolean {
  return deleted.some(
    ({ fromS, untilS }) => elapsedS >= fromS && (untilS === null || elapsedS < untilS),
  );
}
