/** A file waits for the record: no more of it is under way than the record has room for. */
import { expect, test } from 'vitest';
import { ImportSource } from '../../../server/sources/import/import-source.ts';
import { ReadingsFile } from '../../../server/sources/import/readings-file.ts';
import { SourceEar } from '../../support/source-ear.ts';

const settle = () => new Promise(setImmediate);

test('delivers a batch, waits for room, and is finished only when there was room for the last', async () => {
  const rows = Array.from({ length: 7 }, (_, row) => `${row},5,,\n`).join('');
  const rooms: (() => void)[] = [];
  const source = new ImportSource({
    file: await ReadingsFile.check('a.csv', `elapsed_s,pressure_pa,event,temperature_c\n${rows}`),
    room: () => new Promise((resolve) => rooms.push(resolve)),
    wallClock: () => 0,
    rowsAtOnce: 3,
  });
  const ear = new SourceEar();
  source.start(ear);
  const delivered: number[] = [];
  for (let round = 0; round < 4; round += 1) {
    rooms.shift()?.();
    await settle();
    delivered.push(ear.readings.length);
    const last = round === 3;
    expect(ear.states.map(({ phase }) => phase)).toEqual(last ? ['live', 'finished'] : ['live']);
  }
  expect(delivered).toEqual([3, 6, 7, 7]);
});
