/**
 * A file of readings, checked as a whole: of one that is wrong anywhere nothing is recorded. Its text
 * is kept and not its rows, which would take ten times as much room.
 */
import { setImmediate as nextTurn } from 'node:timers/promises';
import { ProblemError } from '../../../protocol/problems.ts';
import {
  CsvError,
  FARTHEST_C,
  HIGHEST_PA,
  LONGEST_S,
  readingsCsvLines,
} from '../../../protocol/readings-csv.ts';
import type { CsvLine, CsvRow } from '../../../protocol/readings-csv.ts';

/** After so many rows the bridge gets to its other work: sensors may be live meanwhile. */
const ROWS_AT_ONCE = 2000;
/** As long as both a recording's title and a sensor's name may be. */
const LONGEST_NAME = 100;
const NAMELESS = 'readings.csv';

export class ReadingsFile {
  /** Its name without a path, fit for a title. */
  readonly name: string;
  /** Whether any row says that it was played and not measured. */
  readonly isRehearsed: boolean;
  readonly #text: string;

  private constructor(name: string, text: string, isRehearsed: boolean) {
    this.name = plainName(name);
    this.isRehearsed = isRehearsed;
    this.#text = text;
  }

  /** @throws ProblemError `bad_readings_file`, naming the line, what is wrong there, and the cure */
  static async check(name: string, text: string): Promise<ReadingsFile> {
    let isRehearsed = false;
    try {
      let rows = 0;
      for (const line of readingsCsvLines(text)) {
        refuseWhatCannotBeCarried(line);
        isRehearsed ||= line.isRehearsed;
        rows += 1;
        if (rows % ROWS_AT_ONCE === 0) await nextTurn();
      }
    } catch (error) {
      if (error instanceof CsvError) throw new ProblemError('bad_readings_file', error.message);
      throw error;
    }
    return new ReadingsFile(name, text, isRehearsed);
  }

  /** When its first row stands, s. */
  firstS(): number {
    return this.rows().next().value?.elapsedS ?? 0;
  }

  *rows(): Generator<CsvRow, undefined> {
    for (const { row } of readingsCsvLines(this.#text)) yield row;
  }
}

function refuseWhatCannotBeCarried({ lineNumber, row }: CsvLine): void {
  const { elapsedS, pressurePa, temperatureC } = row;
  const refuse = (what: string): never => {
    throw new CsvError(`line ${lineNumber}: ${what}`);
  };
  if (elapsedS > LONGEST_S) {
    refuse(
      `elapsed_s is ${elapsedS}, but must not exceed ${LONGEST_S} (49.7 days); is it in seconds?`,
    );
  }
  if (pressurePa !== null && pressurePa > HIGHEST_PA) {
    refuse(`pressure_pa is ${pressurePa}, but must not exceed ${HIGHEST_PA}; is it in pascal?`);
  }
  if (temperatureC !== null && Math.abs(temperatureC) > FARTHEST_C) {
    refuse(
      `temperature_c is ${temperatureC}, but must lie within ±${FARTHEST_C}; is it in degrees Celsius?`,
    );
  }
}

/** What a browser or a script calls a file may be a path, or hold what no screen can show. */
export function plainName(name: string): string {
  const last = name.split(/[/\\]/u).at(-1) ?? '';
  const plain = last
    .slice(0, LONGEST_NAME)
    .replace(/[\p{Cc}\p{Cf}\p{Cs}]/gu, '')
    .trim();
  return plain === '' ? NAMELESS : plain;
}
