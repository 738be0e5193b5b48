/**
 * The thread that prints one report. Judging, laying out and packing take seconds for a long job; the
 * bridge goes on hearing and answering meanwhile. Each chunk is answered before the next is sent.
 */
import { parentPort } from 'node:worker_threads';
import type { ReceivedColumns } from '../../../protocol/reading.ts';
import { printPage, printPdf } from './print.ts';
import type { PrintedAs, PrintJob, ToPrinter } from './print-job.ts';

const port = parentPort;
if (!port) throw new Error('this file runs as a worker thread only');

let job: PrintJob | null = null;
const chunks: ReceivedColumns[] = [];

port.on('message', (message: ToPrinter) => {
  if (message.type === 'print') {
    void print(message.as);
    return;
  }
  if (message.type === 'job') job = message.job;
  else chunks.push(message.columns);
  port.postMessage(null);
});

async function print(as: PrintedAs): Promise<void> {
  if (job === null) throw new Error('readings came before the job');
  port?.postMessage(as === 'pdf' ? await printPdf(job, chunks) : printPage(job, chunks));
}
