/** All readings of a recording, a part at a time, with room between for readings that arrive. */
import { setImmediate } from 'node:timers/promises';
import { type Reading, readingsFromColumns } from '../../protocol/reading.ts';
import type { RecordReader } from './record-reader.ts';

/** Some milliseconds' work each. */
const CHUNK = 5000;

/** In the order of the record; those that come while it is read are not among them. */
export async function* readingChunks(
  reader: RecordReader,
  recordingId: number,
): AsyncGenerator<readonly Reading[]> {
  const until = reader.lastIndex(recordingId);
  for (let after = 0; after < until;) {
    const columns = reader.readingsAfter(recordingId, after, Math.min(CHUNK, until - after));
    const last = columns.index.at(-1);
    if (last === undefined) return;
    after = last;
    yield readingsFromColumns(columns);
    await setImmediate();
  }
}
