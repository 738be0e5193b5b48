/**
 * A recording as CSV with all that each reading has, for spreadsheets and for reading it in again: RFC 4180, one
 * row a reading, a row of its own for each mark, no rows before the headings. Job sheet and sensors' particulars are not
 * in it: JSON has those.
 */
import { textCell } from './csv-cells.ts';
import type { Mark } from './mark.ts';
import type { RecordedReading } from './recording-json.ts';
import type { Recording } from './recording.ts';
import type { TakenBack } from './typed-in.ts';
import { micronFromPa } from './units.ts';

export const FULL_CSV_COLUMNS = [
  'row',
  'time',
  'elapsed_s',
  'sensor',
  'sensor_name',
  'pressure_pa',
  'pressure_micron',
  'temperature_c',
  'condition',
  'taken_back',
  'instead_pa',
  'mark',
  'marked_by',
  'note',
  'number',
  'boot',
  'sequence',
  'uptime_ms',
  'arrived_s',
  'recording',
  'origin',
] as const;
export type FullCsvColumn = (typeof FULL_CSV_COLUMNS)[number];
type Row = Readonly<Partial<Record<FullCsvColumn, string | number | null>>>;

const LINE_END = '\r\n';
export const FULL_CSV_HEADER = `${FULL_CSV_COLUMNS.join(',')}${LINE_END}`;

/** Whether a file is of this format, whatever its lines end with. */
export function isFullCsv(text: string): boolean {
  const from = text.startsWith('\uFEFF') ? 1 : 0;
  const [first = ''] = text.slice(from, from + FULL_CSV_HEADER.length).split(/[\r\n]/u);
  return first === FULL_CSV_COLUMNS.join(',');
}

/** Writes the rows of one recording. */
export class FullCsvRows {
  readonly #recording: Recording;
  readonly #offsetMinutes: number;
  readonly #takenBack: ReadonlyMap<number, TakenBack>;

  /** @param offsetMinutes of the place's time, east of UTC */
  constructor(recording: Recording, takenBack: readonly TakenBack[], offsetMinutes: number) {
    this.#recording = recording;
    this.#offsetMinutes = offsetMinutes;
    this.#takenBack = new Map(takenBack.map((one) => [one.index, one]));
  }

  reading(reading: RecordedReading): string {
    const { index, channel, elapsedS, pressurePa, temperatureC } = reading;
    const slip = this.#takenBack.get(index);
    return this.#row('reading', elapsedS, {
      sensor: channel + 1,
      sensor_name: textCell(this.#recording.sensors[channel]?.name ?? ''),
      pressure_pa: pressurePa,
      pressure_micron: pressurePa === null ? null : micronFromPa(pressurePa),
      temperature_c: temperatureC,
      condition: reading.condition,
      taken_back: slip === undefined ? null : this.#timeAt(slip.atMs),
      instead_pa: slip?.insteadPa ?? null,
      number: index,
      boot: reading.boot,
      sequence: reading.sequence,
      uptime_ms: reading.uptimeMs,
      arrived_s: reading.arrivedS,
    });
  }

  /** @param atMs when it was taken back, wall clock; null: it holds */
  mark({ id, kind, elapsedS, text, madeBy }: Mark, atMs: number | null): string {
    return this.#row('mark', elapsedS, {
      taken_back: atMs === null ? null : this.#timeAt(atMs),
      mark: kind,
      marked_by: madeBy,
      note: textCell(text),
      number: id,
    });
  }

  #row(row: 'reading' | 'mark', elapsedS: number, rest: Row): string {
    const { id, origin, takenFrom, startedAtMs } = this.#recording;
    const all: Row = {
      row,
      time: this.#timeAt(startedAtMs + Math.round(elapsedS * 1000)),
      elapsed_s: elapsedS,
      ...rest,
      recording: id,
      // A rehearsal stays one, whichever way it took.
      origin: takenFrom?.origin ?? origin,
    };
    return `${FULL_CSV_COLUMNS.map((column) => all[column] ?? '').join(',')}${LINE_END}`;
  }

  /** ISO 8601 with the place's offset, and milliseconds. */
  #timeAt(ms: number): string {
    const offset = this.#offsetMinutes;
    const [there = ''] = new Date(ms + offset * 60_000).toISOString().split('Z');
    const two = (value: number) => String(Math.trunc(Math.abs(value))).padStart(2, '0');
    return `${there}${offset < 0 ? '-' : '+'}${two(offset / 60)}:${two(offset % 60)}`;
  }
}
