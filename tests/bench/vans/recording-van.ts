/**
 * Eight sensors at 10 Hz into a record for some seconds, published or not, and the processor's time of all that as JSON.
 * Options: data folder, seconds, then URL, login and authority where it is published.
 */
import { Recorder } from '../../../server/record/recorder.ts';
import { brokerAddress } from '../../../server/vans/broker/broker-address.ts';
import { CursorFile } from '../../../server/vans/publish/cursor-file.ts';
import { Publisher } from '../../../server/vans/publish/publisher.ts';
import { invented, SENSORS } from '../../faults/invented-reading.ts';

const [dataFolder = '', seconds = '0', url, loginFile, authorityFile] = process.argv.slice(2);
const PERIOD_MS = 100;

let publisher: Publisher | null = null;
const recorder = await Recorder.open(dataFolder, {
  durable: (message) => {
    if (message.type === 'readings') publisher?.changed(message.recordingId, true);
  },
  held: () => undefined,
});
const { reader } = recorder;
const recordingId = recorder.begin('sensor', Date.now(), '');
await recorder.settled();
if (url !== undefined) {
  publisher = new Publisher({
    record: reader,
    cursors: new CursorFile(dataFolder, url),
    address: brokerAddress('--publish', { url, loginFile, authorityFile, withoutTls: false }),
    ...{ van: 'van-0', withRehearsals: false, withPeople: false, softwareVersion: '0' },
    wallClock: Date.now,
    log: (line) => console.error(line),
    office: () => undefined,
  });
  publisher.start();
}
const before = process.cpuUsage();
let index = 0;
const timer = setInterval(() => {
  for (let sensor = 0; sensor < SENSORS; sensor += 1) {
    index += 1;
    recorder.readings(recordingId, [invented(index)]);
  }
}, PERIOD_MS);
setTimeout(
  () => {
    clearInterval(timer);
    const { user, system } = process.cpuUsage(before);
    process.stdout.write(
      `${JSON.stringify({ processorS: (user + system) / 1e6, readings: index })}\n`,
    );
    process.exit();
  },
  Number(seconds) * 1000,
);
