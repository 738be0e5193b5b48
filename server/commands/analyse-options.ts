/** Options of the `analyse` command. */
import { parseArgs } from 'node:util';
import { DEFAULT_SHEET, sheetSchema, type Sheet } from '../../protocol/sheet.ts';
import { micronFromPa, paFromMicron } from '../../protocol/units.ts';

export interface AnalyseOptions {
  readonly files: readonly string[];
  readonly sheet: Sheet;
}

/** What is wrong with the command line, in one sentence. */
export class AnalyseUsageError extends Error {
  override readonly name = 'AnalyseUsageError';
}

const micron = (pressurePa: number) => Math.round(micronFromPa(pressurePa));
const leakMicronPerMin = micron(DEFAULT_SHEET.leakLimitPaPerS * 60);

export const ANALYSE_HELP = `npm run --silent analyse -- [options] FILE.csv [FILE2.csv ...]

Judges recorded readings: one JSON object a line for each file, in order. The last row is 'now'.

  --target-micron N    the pull-down counts as reached below this (${micron(DEFAULT_SHEET.targetPa)})
  --hold-s S           length of the hold, seconds since isolation (${DEFAULT_SHEET.holdS})
  --limit-micron N     the most there may be at the end of the hold (${micron(DEFAULT_SHEET.endLimitPa)})
  --max-rise-micron N  the most it may have risen over the hold (${micron(DEFAULT_SHEET.allowedRisePa)})
  --volume-l V         internal volume: adds the leak's inflow to the output (none)
  --temperature-c T    temperature of the metal and of its coldest point (none)
  --help               this text

The defaults are settings of ours, not of a standard; the equipment maker's figures come first.
A steady inflow counts as a leak from ${leakMicronPerMin} micron/min on, also a setting of ours.

CSV: header elapsed_s,pressure_pa,event (further columns are ignored, temperature_c is used); an
empty pressure is over range or missing; event is empty, pump_on, ballast_closed or isolated.
A bad file gets a line with "error", the others go on, and the exit status is 1.`;

/**
 * @returns the options, or null where help was asked for
 * @throws AnalyseUsageError saying which option is wrong and what it should be
 */
export function readAnalyseOptions(argv: readonly string[]): AnalyseOptions | null {
  const { values, positionals } = parse(argv);
  if (values.help) return null;
  if (positionals.length === 0) throw new AnalyseUsageError('name at least one file');
  const read = (name: keyof typeof values) => readNumber(values[name], name);
  const targetPa = paOr(read('target-micron'), DEFAULT_SHEET.targetPa);
  const volumeL = read('volume-l');
  const temperatureC = read('temperature-c');
  const checked = sheetSchema.safeParse({
    ...DEFAULT_SHEET,
    targetPa,
    // The same share of the target as on a sheet that nobody filled in.
    isolateAtPa: targetPa * (DEFAULT_SHEET.isolateAtPa / DEFAULT_SHEET.targetPa),
    holdS: read('hold-s') ?? DEFAULT_SHEET.holdS,
    endLimitPa: paOr(read('limit-micron'), DEFAULT_SHEET.endLimitPa),
    allowedRisePa: paOr(read('max-rise-micron'), DEFAULT_SHEET.allowedRisePa),
    volumeM3: volumeL === null ? null : volumeL / 1000,
    metalTemperatureC: temperatureC,
    coldestTemperatureC: temperatureC,
  } satisfies Sheet);
  if (checked.success) return { files: positionals, sheet: checked.data };
  const [issue] = checked.error.issues;
  const option = OPTION_OF_FIELD.get(String(issue?.path[0])) ?? String(issue?.path[0]);
  throw new AnalyseUsageError(`${option} is out of range (${issue?.message ?? 'no such value'})`);
}

const OPTION_OF_FIELD = new Map([
  ['targetPa', '--target-micron'],
  ['isolateAtPa', '--target-micron'],
  ['holdS', '--hold-s'],
  ['endLimitPa', '--limit-micron'],
  ['allowedRisePa', '--max-rise-micron'],
  ['volumeM3', '--volume-l'],
  ['metalTemperatureC', '--temperature-c'],
  ['coldestTemperatureC', '--temperature-c'],
]);

function parse(argv: readonly string[]) {
  const number = { type: 'string' } as const;
  try {
    return parseArgs({
      args: joinNegatives(argv),
      allowPositionals: true,
      options: {
        'target-micron': number,
        'hold-s': number,
        'limit-micron': number,
        'max-rise-micron': number,
        'volume-l': number,
        'temperature-c': number,
        help: { type: 'boolean', short: 'h' },
      },
    });
  } catch (error) {
    throw new AnalyseUsageError(error instanceof Error ? error.message : String(error), {
      cause: error,
    });
  }
}

/** `--temperature-c -5`: parseArgs takes a value with a minus for an option unless it is joined on. */
function joinNegatives(argv: readonly string[]): string[] {
  const joined: string[] = [];
  for (const word of argv) {
    const before = joined.at(-1);
    if (/^-[\d.]/u.test(word) && before === '--temperature-c')
      joined[joined.length - 1] = `${before}=${word}`;
    else joined.push(word);
  }
  return joined;
}

function readNumber(text: string | boolean | undefined, name: string): number | null {
  if (typeof text !== 'string') return null;
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value)) {
    throw new AnalyseUsageError(`--${name} is "${text}", but must be a number`);
  }
  return value;
}

function paOr(microns: number | null, otherwisePa: number): number {
  return microns === null ? otherwisePa : paFromMicron(microns);
}
