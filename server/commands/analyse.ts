/**
 * `npm run --silent analyse -- FILE.csv …`: judges files of readings, one JSON object a line.
 *
 * The last row of a file is 'now'; nothing but the file's own rows and the options counts.
 */
import { readFile } from 'node:fs/promises';
import { CsvError, parseReadingsCsv, type CsvRow } from '../../protocol/readings-csv.ts';
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { History } from '../../web/analysis/readings/history.ts';
import { judge } from '../../web/analysis/judge.ts';
import { median } from '../../web/analysis/fitting/median.ts';
import { ANALYSE_HELP, AnalyseUsageError, readAnalyseOptions } from './analyse-options.ts';
import { reportLine } from './analyse-report.ts';

/**
 * @param argv what follows the command's name
 * @param write takes one line of standard output
 * @returns the exit status: 0, or 1 where a file or an option was no good
 */
export async function run(argv: readonly string[], write: (line: string) => void): Promise<number> {
  let options;
  try {
    options = readAnalyseOptions(argv);
  } catch (error) {
    if (!(error instanceof AnalyseUsageError)) throw error;
    console.error(`${error.message}; see --help`);
    return 1;
  }
  if (options === null) {
    write(ANALYSE_HELP);
    return 0;
  }
  let status = 0;
  for (const file of options.files) {
    try {
      const rows = parseReadingsCsv(await readFile(file, 'utf8'));
      write(JSON.stringify({ file, ...conclude(rows, options.sheet) }));
    } catch (error) {
      write(JSON.stringify({ file, error: whatIsWrong(error) }));
      status = 1;
    }
  }
  return status;
}

function conclude(rows: readonly CsvRow[], sheet: Sheet) {
  const history = new History();
  const marks: Mark[] = [];
  for (const { elapsedS, pressurePa, event, temperatureC } of rows) {
    const condition = pressurePa === null ? 'over_range' : 'ok';
    history.insert({ elapsedS, pressurePa, condition, temperatureC });
    if (event !== null) {
      marks.push({ id: marks.length + 1, kind: event, elapsedS, text: '', madeBy: 'import' });
    }
  }
  const temperatures = rows.flatMap(({ temperatureC }) => temperatureC ?? []);
  const metalTemperatureC =
    sheet.metalTemperatureC ?? (temperatures.length === 0 ? null : median(temperatures));
  // Judging looks at whole seconds: the one that the last row belongs to is over by then.
  const nowS = Math.ceil(rows.at(-1)?.elapsedS ?? 0);
  return reportLine(judge(history, marks, { ...sheet, metalTemperatureC }, nowS));
}

function whatIsWrong(error: unknown): string {
  if (error instanceof CsvError) return error.message;
  const code = error instanceof Error && 'code' in error ? error.code : null;
  if (code === 'ENOENT') return 'there is no such file; check the path';
  if (code === 'EISDIR') return 'this is a folder; name the files in it';
  if (code === 'EACCES') return 'the file may not be read; check its permissions';
  throw error;
}
