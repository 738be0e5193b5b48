/** The forecast's part of the table. */
import type { ForecastLine, NeverLine, WatchLine } from './lines.ts';
import { atLeast, atMost, quantileRow, type Row, share } from './row.ts';
import { NEVER_MINUTES, SHARES } from './tell-pull-down.ts';

type PerShare = Readonly<Record<string, number | undefined>>;

/** The bar: per cent of the true remaining time. */
const MEDIAN_ALL: PerShare = { 0.3: 25, 0.5: 15, 0.7: 10, 0.9: 7 };
const MEDIAN_DRY: PerShare = { 0.3: 22, 0.5: 14, 0.7: 9, 0.9: 6.5 };
const MEDIAN_WET: PerShare = { 0.3: 30, 0.5: 25, 0.7: 17, 0.9: 11 };
const EIGHTIETH: PerShare = { 0.5: 33, 0.7: 23 };
const WIDTH: PerShare = { 0.5: 0.6, 0.7: 0.45 };
const HELD = { low: 76, high: 84 };
const CALLED: Readonly<Record<number, number>> = { 10: 78, 20: 92, 40: 98 };

export function forecastRows(lines: readonly ForecastLine[]): Row[] {
  const dry = lines.filter(({ wet }) => !wet);
  const wet = lines.filter((line) => line.wet);
  return SHARES.flatMap((at) => {
    const of = (group: readonly ForecastLine[]) => group.filter((line) => line.share === at);
    return [
      ...medians(`${100 * at} %, all`, of(lines), MEDIAN_ALL[at], EIGHTIETH[at], WIDTH[at]),
      ...medians(`${100 * at} %, dry`, of(dry), MEDIAN_DRY[at]),
      ...medians(`${100 * at} %, wet`, of(wet), MEDIAN_WET[at]),
      ...rivals(`${100 * at} %`, of(lines)),
    ];
  });
}

function medians(
  name: string,
  lines: readonly ForecastLine[],
  medianBar: number | undefined,
  eightiethBar?: number,
  widthBar?: number,
): Row[] {
  const told = lines.filter(({ p50S }) => p50S !== null);
  const errors = told.map((line) => error(line.p50S, line.trueS));
  const withUntold = lines.map((line) => error(line.p50S, line.trueS));
  const bar = (high: number | undefined) => (high === undefined ? null : atMost(high));
  return [
    share(`${name}: without a remaining time`, lines, ({ p50S }) => p50S === null),
    quantileRow(`${name}: median error of p50, told`, errors, 0.5, '%'),
    quantileRow(`${name}: median error, untold as 100 %`, withUntold, 0.5, '%', bar(medianBar)),
    quantileRow(
      `${name}: 80th percentile, untold as 100 %`,
      withUntold,
      0.8,
      '%',
      bar(eightiethBar),
    ),
    share(`${name}: [p10, p90] holds the truth, told`, told, holds, HELD),
    share(`${name}:   truth before p10`, told, ({ p10S, trueS }) => trueS < (p10S ?? 0)),
    share(`${name}:   truth after p90`, told, ({ p90S, trueS }) => trueS > (p90S ?? Infinity)),
    quantileRow(
      `${name}: median width / truth, told`,
      told.map(({ p10S, p90S, trueS }) => ((p90S ?? Infinity) - (p10S ?? 0)) / trueS),
      0.5,
      '',
      bar(widthBar),
    ),
  ];
}

/** Of the truth, in per cent; what isn't told is wrong by all of it. */
function error(saidS: number | null, trueS: number): number {
  return saidS === null ? 100 : (100 * Math.abs(saidS - trueS)) / trueS;
}

function holds({ p10S, p90S, trueS }: ForecastLine): boolean {
  return (p10S ?? 0) <= trueS && trueS <= (p90S ?? Infinity);
}

function rivals(name: string, lines: readonly ForecastLine[]): Row[] {
  const by = (said: (line: ForecastLine) => number | null) =>
    lines.map((line) => error(said(line), line.trueS));
  return [
    quantileRow(
      `${name}: rival, last minute's log pressure: median`,
      by((l) => l.lastMinuteS),
      0.5,
      '%',
    ),
    quantileRow(
      `${name}: rival, log pressure over log time: median`,
      by((l) => l.logTimeS),
      0.5,
      '%',
    ),
  ];
}

export function neverRows(lines: readonly NeverLine[]): Row[] {
  return NEVER_MINUTES.map((minute) =>
    share(
      `never reaching: called 'levels off' by ${minute} min`,
      lines.filter((line) => line.minute === minute),
      ({ outcome }) => outcome === 'levels_off',
      atLeast(CALLED[minute] ?? 100),
    ),
  );
}

export function watchRows(lines: readonly WatchLine[]): Row[] {
  const reaching = lines.filter(({ reaches }) => reaches);
  const calls = ({ levelsOffS }: WatchLine) => levelsOffS.length > 0;
  return [
    share("reaching: ever wrongly called 'levels off'", reaching, calls, atMost(1.5)),
    share(
      "reaching, wet: ever wrongly called 'levels off'",
      reaching.filter(({ wet }) => wet),
      calls,
      atMost(4),
    ),
    share('outcome changes at most twice', lines, ({ changes }) => changes <= 2, atLeast(95)),
  ];
}
