/** Recorded readings as a CSV file in parts, so that a long recording is never whole in memory. */
import type { Mark } from '../../protocol/mark.ts';
import type { Reading } from '../../protocol/reading.ts';
import {
  asRehearsedRows,
  type CsvRow,
  formatReadingsCsvRows,
  isCsvEvent,
  READINGS_CSV_HEADER,
  REHEARSED_CSV_HEADER,
} from '../../protocol/readings-csv.ts';
import { inDataTime } from './in-data-time.ts';

/**
 * Marks of the kinds that the format knows stand on the first reading at or after them.
 * @param isSimulated then each row says so
 * @param chunks begins anew with each call: the readings in the order of the record
 */
export function* csvParts(
  marks: readonly Mark[],
  isSimulated: boolean,
  chunks: () => Iterable<readonly Reading[]>,
): Generator<string> {
  const events = marks
    .flatMap(({ kind, elapsedS }) => (isCsvEvent(kind) ? [{ kind, elapsedS }] : []))
    .sort((a, b) => a.elapsedS - b.elapsedS);
  yield isSimulated ? REHEARSED_CSV_HEADER : READINGS_CSV_HEADER;
  for (const readings of inDataTime(chunks)) {
    const rows = readings.map((reading): CsvRow => {
      const event =
        events[0] && events[0].elapsedS <= reading.elapsedS ? events.shift() : undefined;
      return {
        elapsedS: reading.elapsedS,
        pressurePa: reading.pressurePa,
        event: event?.kind ?? null,
        temperatureC: reading.temperatureC,
      };
    });
    const text = formatReadingsCsvRows(rows);
    yield isSimulated ? asRehearsedRows(text) : text;
  }
}
