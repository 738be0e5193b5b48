/** Has reports printed, each by a thread of its own that is gone afterwards, with all that it took. */
import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import { z } from 'zod';
import type { ReceivedColumns } from '../../../protocol/reading.ts';
import type { PrintedAs, PrintJob, ToPrinter } from './print-job.ts';

const answerSchema = z.tuple([z.instanceof(Uint8Array)]);

export class Printing {
  #last: Promise<unknown> = Promise.resolve();

  /**
   * One after the other: a day's readings take room that is not there many times over.
   * @param chunks the readings in the order of the record
   */
  print(job: PrintJob, chunks: AsyncIterable<ReceivedColumns>, as: PrintedAs): Promise<Uint8Array> {
    const printed = this.#last.then(() => printByThread(job, chunks, as));
    this.#last = printed.catch(() => undefined);
    return printed;
  }
}

async function printByThread(
  job: PrintJob,
  chunks: AsyncIterable<ReceivedColumns>,
  as: PrintedAs,
): Promise<Uint8Array> {
  const thread = new Worker(new URL('./printer-thread.mjs', import.meta.url), {
    // Options of the process that started this one (a test runner's, say) are not the thread's.
    execArgv: [],
  });
  const failed = new Promise<never>((_, reject) => void thread.once('error', reject));
  // Heard by whoever waits for an answer; between two answers by nobody.
  failed.catch(() => undefined);
  const ask = (message: ToPrinter): Promise<unknown[]> => {
    const answered = once(thread, 'message');
    thread.postMessage(message);
    return Promise.race([answered, failed]);
  };
  try {
    await ask({ type: 'job', job });
    for await (const columns of chunks) await ask({ type: 'readings', columns });
    const [printed] = answerSchema.parse(await ask({ type: 'print', as }));
    return printed;
  } finally {
    await thread.terminate();
  }
}
