/**
 * A recorder under eight sensors at 10 Hz until it is killed. Says on its standard output, a line each, which
 * reading of which recording is durable; written at once, so that nothing said is lost with the process.
 */
import { writeSync } from 'node:fs';
import { Recorder } from '../../server/record/recorder.ts';
import { invented, SENSORS } from './invented-reading.ts';

const PERIOD_MS = 100;
/** Rows of a recording: then the next one begins, so that recordings are killed at their beginning too. */
const LONGEST = 3000;

const [dataFolder = ''] = process.argv.slice(2);
const recorder = await Recorder.open(dataFolder, {
  durable: (message) => {
    if (message.type !== 'readings') return;
    writeSync(1, `${message.recordingId} ${message.columns.index.at(-1) ?? 0}\n`);
  },
  held: ({ detail }) => writeSync(2, `${detail}\n`),
});
const open = recorder.reader.openRecordings().at(-1);
let recordingId = open?.id ?? recorder.begin('sensor', 1000, '');
let index = recorder.reader.lastIndex(recordingId);

setInterval(() => {
  if (index >= LONGEST) {
    recorder.end(recordingId, 2000);
    recordingId = recorder.begin('sensor', 1000, '');
    index = 0;
  }
  // Each sensor's own message, as the radio hands them over.
  for (let sensor = 0; sensor < SENSORS; sensor += 1) {
    index += 1;
    recorder.readings(recordingId, [invented(index)]);
  }
}, PERIOD_MS);
