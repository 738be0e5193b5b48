/** Readings by formula as the stream sends them. */
import type { ReadingColumns } from '../../../protocol/reading.ts';
import { HERTZ, pullDownPa } from '../long-session.ts';

/** Rows from the first to before the second, at 10 Hz. */
export function columnsBetween(first: number, end: number): ReadingColumns {
  const rows = Array.from({ length: end - first }, (_, at) => first + at);
  return {
    index: rows.map((row) => row + 1),
    channel: rows.map(() => 0),
    boot: rows.map(() => 1),
    sequence: rows,
    elapsedS: rows.map((row) => row / HERTZ),
    pressurePa: rows.map((row) => pullDownPa(row / HERTZ)),
    temperatureC: rows.map(() => null),
    condition: rows.map(() => 'ok' as const),
  };
}
