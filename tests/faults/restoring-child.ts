/** Restores a backup to a record, until it is done or killed. */
import { copyFileSync } from 'node:fs';
import { Recorder } from '../../server/record/recorder.ts';
import { Restorer } from '../../server/record/restorer.ts';

const [dataFolder = '', backup = ''] = process.argv.slice(2);
const recorder = await Recorder.open(dataFolder, {
  durable: () => undefined,
  held: () => undefined,
});
await new Restorer(recorder, Date.now).restore((file) => {
  copyFileSync(backup, file);
  return Promise.resolve();
});
await recorder.close();
