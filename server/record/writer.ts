/**
 * The thread that owns the record's only writing connection.
 *
 * Facts that arrive while a commit runs share the next one, so that a slow disk makes commits
 * larger, not later. Nothing is answered before it is on the disk.
 */
import { parentPort, workerData } from 'node:worker_threads';
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { ProblemError } from '../../protocol/problems.ts';
import { FactWriter } from './fact-writer.ts';
import { openForWriting } from './open-database.ts';
import { takeOver, type TakeOver } from './take-over.ts';
import type { FromWriter, ToWriter } from './writer-messages.ts';

/** Failures that lie outside this program and may pass: the facts are kept and tried again. */
const PASSING_FAILURES = /^SQLITE_(FULL|IOERR|BUSY|READONLY|CANTOPEN|NOMEM)/u;
const RETRY_AFTER_MS = 1000;

const port = parentPort;
if (!port) throw new Error('this file runs as a worker thread only');
const { dataFolder } = z.object({ dataFolder: z.string() }).parse(workerData);
const say = (message: FromWriter): void => port.postMessage(message);

try {
  serve(dataFolder);
} catch (error) {
  if (!(error instanceof ProblemError) || !isOpeningProblem(error.code)) throw error;
  say({ type: 'refused', code: error.code, detail: error.detail });
  port.close();
}

function serve(folder: string): void {
  const database = openForWriting(folder);
  const facts = new FactWriter(database);
  let waiting: Extract<ToWriter, { type: 'write' }>[] = [];
  let closing = false;
  let timer: NodeJS.Immediate | NodeJS.Timeout | null = null;

  const commit = (): void => {
    timer = null;
    const batch = waiting;
    try {
      const written = database.transaction(() => {
        const all = batch.map(({ ticket, fact }) => ({ ticket, message: facts.write(fact) }));
        facts.seal();
        return all;
      })();
      waiting = waiting.slice(batch.length);
      // The log of changes still has what was deleted.
      if (batch.some(({ fact }) => fact.kind === 'delete'))
        database.pragma('wal_checkpoint(TRUNCATE)');
      if (written.length > 0) say({ type: 'durable', written });
    } catch (error) {
      facts.forget();
      if (!isPassing(error)) throw error;
      say({ type: 'held', detail: error.message, waiting: batch.length });
      timer = setTimeout(commit, RETRY_AFTER_MS);
      return;
    }
    if (closing) {
      database.close();
      say({ type: 'closed' });
      port?.close();
    }
  };

  /** In its turn: what was sent before it is written first. */
  const take = ({ ticket, wish }: Extract<ToWriter, { type: 'take_over' }>): void => {
    if (waiting.length > 0) commit();
    say({ type: 'taken_over', ticket, failure: whyNotTakenOver(database, wish) });
  };

  port?.on('message', (message: ToWriter) => {
    if (message.type === 'take_over') {
      take(message);
      return;
    }
    if (message.type === 'close') closing = true;
    else waiting.push(message);
    timer ??= setImmediate(commit);
  });
  say({ type: 'ready' });
}

/** A person waits for the answer: it is not tried again by itself, whatever the reason. */
function whyNotTakenOver(database: Database.Database, wish: TakeOver): string | null {
  try {
    takeOver(database, wish);
    return null;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function isPassing(error: unknown): error is Error {
  return error instanceof Error && 'code' in error && PASSING_FAILURES.test(String(error.code));
}

function isOpeningProblem(code: string): code is Extract<FromWriter, { type: 'refused' }>['code'] {
  return (
    code === 'record_from_newer_version' ||
    code === 'record_damaged' ||
    code === 'data_folder_unwritable'
  );
}
