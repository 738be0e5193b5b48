import { formatReadingsCsvRows, READINGS_CSV_HEADER } from '../../protocol/readings-csv.ts';
import { ImportSource } from '../../server/sources/import/import-source.ts';
import { ReadingsFile } from '../../server/sources/import/readings-file.ts';
import { describeSourceContract } from './source-contract.ts';

const ROWS = 200;

function fileText(): string {
  return (
    READINGS_CSV_HEADER +
    formatReadingsCsvRows(
      Array.from({ length: ROWS }, (_, row) => ({
        elapsedS: row / 3,
        pressurePa: row < 5 ? null : 900 - row,
        event: row === 7 ? 'pump_on' : null,
        temperatureC: 20.5,
      })),
    )
  );
}

/** A file is there as a whole: what stands for the world's pace is the room that the record has. */
describeSourceContract('a file that is read in', async () => {
  let makeRoom: () => void = () => undefined;
  const source = new ImportSource({
    file: await ReadingsFile.check('roof.csv', fileText()),
    room: () => new Promise((resolve) => (makeRoom = resolve)),
    wallClock: () => 1_700_000_000_000,
    rowsAtOnce: 1,
  });
  return {
    source,
    bringReadings: async (count) => {
      for (let row = 0; row < count; row += 1) {
        makeRoom();
        await new Promise(setImmediate);
      }
    },
    close: () => source.stop(),
  };
});
