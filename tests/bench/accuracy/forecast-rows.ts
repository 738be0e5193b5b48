/** The forecast's part of the table. */
import type { ForecastLine, MomentLine, NeverLine, WatchLine } from './lines.ts';
import { atLeast, atMost, type Bar, quantile, type Section, share } from './table.ts';
import { NEVER_MINUTES, SHARES } from './tell-pull-down.ts';

/** Of the bar, for 30, 50, 70 and 90 % of the true time; nothing where none is set. */
type Bars = readonly (number | undefined)[];
interface Group {
  readonly name: string;
  readonly of: (line: ForecastLine) => boolean;
  /** Per cent of the true remaining time. */
  readonly median: Bars;
  readonly eightieth: Bars;
  readonly width: Bars;
  readonly held: Bar | null;
}

const HELD: Bar = { low: 76, high: 84 };
const GROUPS: readonly Group[] = [
  {
    name: 'all',
    of: () => true,
    median: [25, 15, 10, 7],
    eightieth: [undefined, 33, 23],
    width: [undefined, 0.6, 0.45],
    held: null,
  },
  {
    name: 'dry',
    of: ({ wet }) => !wet,
    median: [22, 14, 9, 6.5],
    eightieth: [],
    width: [],
    held: HELD,
  },
  {
    name: 'wet',
    of: ({ wet }) => wet,
    median: [30, 25, 17, 11],
    eightieth: [],
    width: [],
    held: HELD,
  },
];

/** The forecast, cut near shares of the true time. */
export function forecastSections(lines: readonly ForecastLine[]): Section[] {
  return GROUPS.map((group) => ({
    title: `forecast, ${group.name}`,
    columns: SHARES.map((at) => `${100 * at} % of the true time`),
    rows: rowsOf(
      group,
      SHARES.map((at) => lines.filter((line) => line.share === at && group.of(line))),
    ),
  }));
}

function rowsOf(group: Group, columns: readonly (readonly ForecastLine[])[]) {
  const each = <C>(cell: (lines: readonly ForecastLine[], column: number) => C) =>
    columns.map(cell);
  const told = (lines: readonly ForecastLine[]) => lines.filter(({ p50S }) => p50S !== null);
  const errors = (lines: readonly ForecastLine[], said: Said) =>
    lines.map((line) => error(said(line), line.trueS));
  return [
    {
      name: 'no remaining time told',
      unit: '%',
      cells: each((lines) => share(lines, ({ p50S }) => p50S === null)),
    },
    {
      name: 'median error of p50, told',
      unit: '%',
      cells: each((lines) => quantile(errors(told(lines), ours), 0.5)),
    },
    {
      name: 'median error of p50, untold as 100 %',
      unit: '%',
      cells: each((lines, i) => quantile(errors(lines, ours), 0.5, atMost(group.median[i]))),
    },
    {
      name: '80th percentile, untold as 100 %',
      unit: '%',
      cells: each((lines, i) => quantile(errors(lines, ours), 0.8, atMost(group.eightieth[i]))),
    },
    {
      name: '[p10, p90] holds the truth, told',
      unit: '%',
      cells: each((lines) => share(told(lines), holds, group.held)),
    },
    {
      name: '  it comes before p10',
      unit: '%',
      cells: each((lines) => share(told(lines), ({ p10S, trueS }) => trueS < (p10S ?? 0))),
    },
    {
      name: '  it comes after p90',
      unit: '%',
      cells: each((lines) => share(told(lines), ({ p90S, trueS }) => trueS > (p90S ?? Infinity))),
    },
    {
      name: 'median width over the truth, told',
      unit: '',
      cells: each((lines, i) => quantile(told(lines).map(width), 0.5, atMost(group.width[i]))),
    },
    {
      name: "rival, last minute's log pressure: median error",
      unit: '%',
      cells: each((lines) =>
        quantile(
          errors(lines, ({ lastMinuteS }) => lastMinuteS),
          0.5,
        ),
      ),
    },
    {
      name: 'rival, log pressure over log time: median error',
      unit: '%',
      cells: each((lines) =>
        quantile(
          errors(lines, ({ logTimeS }) => logTimeS),
          0.5,
        ),
      ),
    },
  ];
}

type Said = (line: ForecastLine) => number | null;
const ours: Said = ({ p50S }) => p50S;

/** Of the truth, in per cent; what isn't told is wrong by all of it. */
function error(saidS: number | null, trueS: number): number {
  return saidS === null ? 100 : (100 * Math.abs(saidS - trueS)) / trueS;
}

function holds({ p10S, p90S, trueS }: ForecastLine): boolean {
  return (p10S ?? 0) <= trueS && trueS <= (p90S ?? Infinity);
}

function width({ p10S, p90S, trueS }: ForecastLine): number {
  return ((p90S ?? Infinity) - (p10S ?? 0)) / trueS;
}

/** By what was held to be the reason; the first three are all there are. */
const KINDS: readonly { readonly name: string; readonly of: (line: MomentLine) => boolean }[] = [
  { name: 'all', of: () => true },
  { name: 'dry', of: ({ wet }) => !wet },
  { name: 'wet', of: ({ wet }) => wet },
  { name: 'plateau', of: ({ cause }) => cause === 'boil_off' },
  { name: 'flat', of: ({ cause }) => cause === 'floor' },
  { name: 'beyond the range', of: ({ cause }) => cause === 'sensor' },
];

/** At the cuts near shares of the true time what is left is known from the age; at any moment it isn't. */
export function momentSection(lines: readonly MomentLine[]): Section {
  const columns = KINDS.map(({ of }) => lines.filter(of));
  const row = (name: string, counts: (line: MomentLine) => boolean) => ({
    ...{ name, unit: '%' },
    cells: columns.map((column) =>
      share(
        column.filter(({ p50S }) => p50S !== null),
        counts,
      ),
    ),
  });
  return {
    title: 'forecast, at any moment of the true time',
    columns: KINDS.map(({ name }) => name),
    rows: [
      {
        ...{ name: 'no remaining time told', unit: '%' },
        cells: columns.map((column) => share(column, ({ p50S }) => p50S === null)),
      },
      row('it comes later than p50, told', ({ p50S, trueS }) => trueS > (p50S ?? Infinity)),
      row('it comes before p10, told', ({ p10S, trueS }) => trueS < (p10S ?? 0)),
      row('it comes after p90, told', ({ p90S, trueS }) => trueS > (p90S ?? Infinity)),
    ],
  };
}

const CALLED: Bars = [78, 92, 98];

export function neverSection(lines: readonly NeverLine[]): Section {
  const obstacles = [...new Set(lines.map(({ obstacle }) => obstacle))].sort();
  const cells = (of: readonly NeverLine[], bars: Bars) =>
    NEVER_MINUTES.map((minute, i) =>
      share(
        of.filter((line) => line.minute === minute),
        ({ outcome }) => outcome === 'levels_off',
        atLeast(bars[i]),
      ),
    );
  return {
    title: "never reaching: called 'levels off'",
    columns: NEVER_MINUTES.map((minute) => `by ${minute} min`),
    rows: [
      { name: 'all', unit: '%', cells: cells(lines, CALLED) },
      ...obstacles.map((obstacle) => ({
        name: `  ${obstacle}`,
        unit: '%',
        cells: cells(
          lines.filter((line) => line.obstacle === obstacle),
          [],
        ),
      })),
    ],
  };
}

export function watchSection(lines: readonly WatchLine[]): Section {
  const reaching = lines.filter(({ reaches }) => reaches);
  const wet = reaching.filter((line) => line.wet);
  const calls = ({ levelsOffS }: WatchLine) => levelsOffS.length > 0;
  const one = (name: string, cell: ReturnType<typeof share>) => ({
    name,
    unit: '%',
    cells: [cell],
  });
  return {
    title: 'pull-downs judged all along, each 30 s',
    columns: [''],
    rows: [
      one("reaching: ever called 'levels off'", share(reaching, calls, atMost(1.5))),
      one("reaching, wet: ever called 'levels off'", share(wet, calls, atMost(4))),
      one(
        'outcome changes at most twice',
        share(lines, ({ changes }) => changes <= 2, atLeast(95)),
      ),
    ],
  };
}
