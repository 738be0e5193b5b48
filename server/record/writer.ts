/**
 * The thread that owns the record's only writing connection.
 *
 * Facts that arrive while a commit runs share the next one, so that a slow disk makes commits
 * larger, not later. Nothing is answered before it is on the disk.
 */
import {
  type MessagePort,
  parentPort,
  receiveMessageOnPort,
  workerData,
} from 'node:worker_threads';
import { z } from 'zod';
import { ProblemError } from '../../protocol/problems.ts';
import { isDamage } from './open-database.ts';
import { type OpenRecord, openRecord } from './open-record.ts';
import { UnwrittenFacts } from './unwritten-facts.ts';
import { Takings } from './takings.ts';
import { type Waiting, WaitingFacts } from './waiting-facts.ts';
import type { FromWriter, ToWriter } from './writer-messages.ts';

/** Failures that lie outside this program and may pass: the facts are kept and tried again. */
const PASSING_FAILURES = /^SQLITE_(FULL|IOERR|BUSY|READONLY|CANTOPEN|NOMEM)/u;
const RETRY_AFTER_MS = 1000;
const HELD = 'nothing can be written to the record at present';

interface Damage {
  readonly error: Error;
  /** Wall clock, ms: since when nothing is written. */
  readonly sinceMs: number;
}

const port = parentPort;
if (!port) throw new Error('this file runs as a worker thread only');
const { dataFolder } = z.object({ dataFolder: z.string() }).parse(workerData);
const say = (message: FromWriter): void => port.postMessage(message);

try {
  serve(
    port,
    openRecord(dataFolder, Date.now(), () => say({ type: 'mending' })),
  );
} catch (error) {
  if (!(error instanceof ProblemError) || !isOpeningProblem(error.code)) throw error;
  say({ type: 'refused', code: error.code, detail: error.detail });
  port.close();
}

function serve(port: MessagePort, record: OpenRecord): void {
  const { database, facts, setAside, half, halfRemoved, unlock } = record;
  const waiting = new WaitingFacts();
  const unwritten = new UnwrittenFacts(dataFolder);
  const takings = new Takings(database, half, (kind, upTo) => facts.reserve(kind, upTo));
  let isTaking = false;
  let closing = false;
  let isReleased = false;
  let heldSinceMs: number | null = null;
  let damage: Damage | null = null;
  let timer: NodeJS.Timeout | null = null;

  const writeAll = database.transaction((batch: readonly Waiting[]) => {
    const written = batch.map(({ ticket, fact }) => ({ ticket, message: facts.write(fact) }));
    facts.seal();
    return written;
  });

  const commit = (): void => {
    timer = null;
    if (damage !== null) keepAside(damage);
    else if (!commitWaiting()) {
      timer = setTimeout(commit, RETRY_AFTER_MS);
      return;
    }
    if (closing && takings.isIdle) say({ type: 'all_written' });
  };

  /** @returns whether nothing waits any more */
  function commitWaiting(): boolean {
    try {
      while (!waiting.isEmpty) {
        const batch = waiting.first();
        const written = writeAll(batch);
        const readings = waiting.written(written.length);
        // The log of changes still has what was deleted.
        if (batch.some(({ fact }) => fact.kind === 'delete'))
          database.pragma('wal_checkpoint(TRUNCATE)');
        say({ type: 'durable', written, readings });
      }
      if (heldSinceMs !== null) say({ type: 'relieved' });
      heldSinceMs = null;
      return true;
    } catch (error) {
      facts.forget();
      if (isDamage(error)) {
        damage = { error, sinceMs: heldSinceMs ?? Date.now() };
        keepAside(damage);
        return true;
      }
      if (!isPassing(error)) throw error;
      heldSinceMs ??= Date.now();
      waiting.gather();
      const { readings, refused } = waiting;
      say({
        type: 'held',
        sinceMs: heldSinceMs,
        detail: error.message,
        waiting: readings,
        refused,
      });
      return false;
    }
  }

  /** Nothing is acknowledged: until the next start mends the record, nobody can be shown it. */
  function keepAside({ error, sinceMs }: Damage): void {
    while (!waiting.isEmpty) {
      const batch = waiting.first();
      unwritten.add(batch.map(({ fact }) => fact));
      waiting.written(batch.length);
    }
    say({ type: 'damaged', sinceMs, detail: error.message, file: unwritten.path });
  }

  function release(): void {
    unwritten.close();
    database.close();
    unlock();
    port.close();
  }

  /** A slice at a time, and what has arrived meanwhile between two of them. */
  function takeSlice(): void {
    if (damage === null && commitWaiting()) takings.step();
    else takings.abandon(HELD);
  }

  function goOn(): void {
    if (timer === null) commit();
    if (takings.isIdle || isTaking) return;
    isTaking = true;
    setImmediate(() => {
      isTaking = false;
      takeSlice();
      goOn();
    });
  }

  /** What has arrived as well shares the commit. */
  const nextMessage = (): { readonly message: ToWriter } | undefined => receiveMessageOnPort(port);
  const take = (message: ToWriter): void => {
    if (message.type === 'close') closing = true;
    else if (message.type === 'release') isReleased = true;
    else if (message.type === 'take_over') {
      const { ticket, wish } = message;
      const isFirst = takings.isIdle;
      takings.add(wish, (failure) => say({ type: 'taken_over', ticket, failure }));
      // After what was sent before, and before what is sent after it: numbers are given in that order.
      if (isFirst) takeSlice();
    } else waiting.add(message);
  };
  port.on('message', (first: ToWriter) => {
    take(first);
    for (let more = nextMessage(); more !== undefined; more = nextMessage()) take(more.message);
    // Else it is tried again in its time.
    if (isReleased) release();
    else goOn();
  });
  say({ type: 'ready', setAside, halfRemoved });
}

function isPassing(error: unknown): error is Error {
  return error instanceof Error && 'code' in error && PASSING_FAILURES.test(String(error.code));
}

function isOpeningProblem(code: string): code is Extract<FromWriter, { type: 'refused' }>['code'] {
  return (
    code === 'record_from_newer_version' ||
    code === 'record_not_salvaged' ||
    code === 'record_in_use' ||
    code === 'data_folder_unwritable'
  );
}
