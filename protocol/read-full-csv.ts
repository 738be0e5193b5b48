/** Reads a recording as CSV with all that each reading has (full-csv.ts). */
import { csvRows, CsvCellsError, textOfCell } from './csv-cells.ts';
import { FULL_CSV_COLUMNS as COLUMNS, type FullCsvColumn as Column } from './full-csv.ts';
import { jobsIn } from './job.ts';
import type { Mark } from './mark.ts';
import { markSchema } from './mark.ts';
import type { ReadRecordingJson } from './read-recording-json.ts';
import {
  RECORDING_JSON,
  RECORDING_JSON_VERSION,
  type RecordedReading,
  recordedReadingSchema,
  type RecordingJsonHead,
} from './recording-json.ts';
import { ORIGINS } from './recording.ts';
import type { Recording } from './recording.ts';
import type { TakenBack } from './typed-in.ts';

/** What is wrong with a file, in which line, and what to do. */
export class FullCsvError extends Error {
  override readonly name = 'FullCsvError';
}

interface Line {
  readonly line: number;
  cell(column: Column): string;
}

/**
 * Reads a whole file, of which `isFullCsv` holds.
 * @throws FullCsvError
 */
export function readFullCsv(text: string): ReadRecordingJson {
  try {
    return fromLines(linesOf(text));
  } catch (error) {
    if (error instanceof CsvCellsError) throw new FullCsvError(error.message, { cause: error });
    throw error;
  }
}

function* linesOf(text: string): Generator<Line> {
  let isFirst = true;
  for (const { line, cells } of csvRows(text)) {
    if (isFirst) {
      isFirst = false;
      continue;
    }
    if (cells.length !== COLUMNS.length) {
      throw new FullCsvError(
        `line ${line}: ${cells.length} cells under ${COLUMNS.length} headings; ` +
          'write numbers with a point and leave unknown cells empty',
      );
    }
    yield { line, cell: (column) => cells[COLUMNS.indexOf(column)] ?? '' };
  }
}

function fromLines(lines: Iterable<Line>): ReadRecordingJson {
  const found = new Found();
  for (const line of lines) {
    const kind = line.cell('row');
    if (kind === 'reading') found.reading(line);
    else if (kind === 'mark') found.mark(line);
    else throw new FullCsvError(`line ${line.line}: row is "${kind}"; write reading or mark`);
  }
  return found.whole();
}

class Found {
  readonly #readings: { readonly line: number; readonly reading: RecordedReading }[] = [];
  readonly #marks: Mark[] = [];
  readonly #marksTakenBack: RecordingJsonHead['marksTakenBack'] = [];
  readonly #takenBack: TakenBack[] = [];
  readonly #names: string[] = [];
  #first: {
    readonly id: number;
    readonly origin: Recording['origin'];
    readonly ms: number;
  } | null = null;

  reading(line: Line): void {
    const reading = checked(recordedReadingSchema, line, {
      index: number(line, 'number'),
      channel: (number(line, 'sensor') ?? 0) - 1,
      boot: number(line, 'boot'),
      sequence: number(line, 'sequence'),
      uptimeMs: number(line, 'uptime_ms'),
      arrivedS: number(line, 'arrived_s'),
      elapsedS: number(line, 'elapsed_s'),
      pressurePa: number(line, 'pressure_pa'),
      temperatureC: number(line, 'temperature_c'),
      condition: line.cell('condition'),
    });
    this.#note(line, reading.elapsedS);
    this.#readings.push({ line: line.line, reading });
    this.#names[reading.channel] = textOfCell(line.cell('sensor_name')).slice(0, LONGEST_NAME);
    if (line.cell('taken_back') === '') return;
    const { index, elapsedS, pressurePa } = reading;
    const insteadPa = number(line, 'instead_pa');
    this.#takenBack.push({
      index,
      elapsedS,
      pressurePa,
      insteadPa,
      atMs: timeIn(line, 'taken_back'),
    });
  }

  mark(line: Line): void {
    const mark = checked(markSchema, line, {
      id: number(line, 'number'),
      kind: line.cell('mark'),
      elapsedS: number(line, 'elapsed_s'),
      text: textOfCell(line.cell('note')),
      madeBy: line.cell('marked_by'),
    });
    this.#note(line, mark.elapsedS);
    if (line.cell('taken_back') === '') this.#marks.push(mark);
    else this.#marksTakenBack.push({ ...mark, atMs: timeIn(line, 'taken_back') });
  }

  whole(): ReadRecordingJson {
    if (this.#first === null) throw new FullCsvError('line 2: there are no readings or marks');
    const { id, origin, ms } = this.#first;
    const sorted = [...this.#readings].sort((a, b) => a.reading.index - b.reading.index);
    const twice = sorted.find(({ reading }, at) => reading.index === sorted[at - 1]?.reading.index);
    if (twice !== undefined) {
      throw new FullCsvError(
        `line ${twice.line}: number ${twice.reading.index} is there twice among the readings; leave one out`,
      );
    }
    const sensors = Array.from(this.#names, (name: string | undefined, channel) => ({
      id: `sensor-${channel + 1}`,
      name: name ?? '',
      ...{ manufacturer: null, model: null, serial: null, firmware: null },
      ...{ label: null, calibratedOn: null },
    }));
    const recording = { id, origin, startedAtMs: ms, title: '', sensors, takenFrom: null };
    return {
      head: {
        format: RECORDING_JSON,
        version: RECORDING_JSON_VERSION,
        softwareVersion: '',
        recording: { ...recording, open: false },
        job: null,
        marks: withoutEmptyJob(this.#marks, sorted),
        marksTakenBack: this.#marksTakenBack,
        sheet: [],
        takenBack: this.#takenBack,
        seenAlerts: [],
        signOffs: [],
        verified: null,
      },
      count: sorted.length,
      readings: function* () {
        for (const { reading } of sorted) yield reading;
      },
    };
  }

  /** What stands in every row: which recording it is, from where, and when it began. */
  #note(line: Line, elapsedS: number): void {
    const id = number(line, 'recording') ?? 0;
    const origin = ORIGINS.find((one) => one === line.cell('origin'));
    if (origin === undefined || !Number.isSafeInteger(id) || id < 1) {
      throw new FullCsvError(
        `line ${line.line}: recording and origin must say which one it is; export it again`,
      );
    }
    const ms = timeIn(line, 'time') - Math.round(elapsedS * 1000);
    this.#first ??= { id, origin, ms };
    if (this.#first.id === id && this.#first.origin === origin) return;
    throw new FullCsvError(
      `line ${line.line}: it is of another recording than the lines before; one file has one recording`,
    );
  }
}

const LONGEST_NAME = 100;

/** A file of one job has the mark at which it begins, and nothing before: a recording of its own begins there. */
function withoutEmptyJob(
  marks: readonly Mark[],
  readings: readonly { readonly reading: RecordedReading }[],
): Mark[] {
  const [, first] = jobsIn(marks);
  if (first === undefined) return [...marks];
  const isBefore = ({ elapsedS }: { readonly elapsedS: number }) => elapsedS < first.fromS;
  const isEmpty = !marks.some(isBefore) && !readings.some(({ reading }) => isBefore(reading));
  return isEmpty ? marks.filter(({ id }) => id !== first.beginMark) : [...marks];
}

function number(line: Line, column: Column): number | null {
  const cell = line.cell(column).trim();
  if (cell === '') return null;
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/iu.test(cell) ? Number(cell) : Number.NaN;
  if (Number.isFinite(value)) return value;
  throw new FullCsvError(
    `line ${line.line}: ${column} is "${cell.slice(0, 40)}", which is no number`,
  );
}

function timeIn(line: Line, column: Column): number {
  const cell = line.cell(column);
  const ms = /^\d{4}-\d\d-\d\dT[\d:.]+(Z|[+-]\d\d:\d\d)$/u.test(cell)
    ? Date.parse(cell)
    : Number.NaN;
  if (Number.isSafeInteger(ms)) return ms;
  throw new FullCsvError(
    `line ${line.line}: ${column} is "${cell.slice(0, 40)}"; write it as 2026-11-26T17:03:11.000+01:00`,
  );
}

interface Schema<T> {
  safeParse(value: unknown):
    | { readonly success: true; readonly data: T }
    | {
        readonly success: false;
        readonly error: { readonly issues: readonly { path: PropertyKey[]; message: string }[] };
      };
}

function checked<T>(schema: Schema<T>, line: Line, value: unknown): T {
  const found = schema.safeParse(value);
  if (found.success) return found.data;
  const [issue] = found.error.issues;
  const where = issue?.path.map(String).join('.') ?? '';
  throw new FullCsvError(
    `line ${line.line}: ${where}: ${issue?.message ?? 'not of the form'}; export it again`,
  );
}
