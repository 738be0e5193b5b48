/** What is done in a thread of its own, so that the bridge keeps answering and the writer writing. */
import { parentPort, workerData } from 'node:worker_threads';
import { ProblemError } from '../../protocol/problems.ts';
import { type AsideJob, asideJobSchema } from './aside.ts';
import { makeBackup } from './backup.ts';
import { prepareRecord } from './prepare.ts';
import { readFile, writeRecord } from './record-of-file.ts';

if (!parentPort) throw new Error('this file runs as a worker thread only');
try {
  parentPort.postMessage({ ok: true, value: work(asideJobSchema.parse(workerData)) });
} catch (error) {
  if (!(error instanceof ProblemError)) throw error;
  const { code, detail } = error;
  parentPort.postMessage({ ok: false, code, detail });
}

function work(job: AsideJob): unknown {
  switch (job.type) {
    case 'backup':
      return makeBackup(job.dataFolder, job.file);
    case 'prepare':
      return prepareRecord(job.dataFolder, job.workFolder);
    case 'read_file': {
      const file = readFile(job.format, job.text);
      writeRecord(job.workFolder, file);
      return file.head;
    }
  }
}
