/** The rise's part of the table. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { micronFromPa, paFromMicron } from '../../../protocol/units.ts';
import { RISE_CLASSES } from '../../support/second-world/rise-class.ts';
import type { EndLine, FirstLine, RiseLine } from './lines.ts';
import { isDecided, isRight } from './right-verdict.ts';
import { atLeast, atMost, quantileRow, type Row, share } from './row.ts';
import { END_SAID_S, MINUTES } from './tell-rise.ts';

type PerMinute = Readonly<Record<number, number | undefined>>;

const RIGHT: PerMinute = { 5: 94, 10: 95, 15: 96, 30: 98 };
const UNDECIDED: PerMinute = { 5: 45, 10: 22, 15: 12, 30: 5 };
const WIDTH: PerMinute = { 10: 9, 30: 3 };
const END_ERROR: PerMinute = { 60: 8, 120: 3, 300: 1.3 };
/** Away from zero: above this, Pa/s. */
const AWAY_PA_PER_S = paFromMicron(1) / 60;
/** At no leak: below a tenth of that. */
const NO_LEAK_PA_PER_S = AWAY_PA_PER_S / 10;

export function riseRows(lines: readonly RiseLine[]): Row[] {
  return [
    ...MINUTES.flatMap((minute) =>
      rowsAt(
        minute,
        lines.filter((line) => line.minute === minute),
      ),
    ),
    ...tightRows(lines),
  ];
}

function rowsAt(minute: number, lines: readonly RiseLine[]): Row[] {
  const decided = lines.filter(({ verdict }) => isDecided(verdict));
  const right = (how: 'to_the_word' | 'leak_named') => (line: RiseLine) =>
    isRight(line.kind, line.trueLeakPaPerS, line.verdict, how);
  const name = `${minute} min`;
  const leaks = lines.filter(({ trueLeakPaPerS }) => trueLeakPaPerS > AWAY_PA_PER_S);
  const none = lines.filter(({ trueLeakPaPerS }) => trueLeakPaPerS < NO_LEAK_PA_PER_S);
  const widths = lines.flatMap(({ leakPaPerS }) =>
    leakPaPerS ? [60 * micronFromPa(leakPaPerS.high - leakPaPerS.low)] : [],
  );
  const barOf = (high: number | undefined) => (high === undefined ? null : atMost(high));
  return [
    share(
      `${name}: right among decided, to the word`,
      decided,
      right('to_the_word'),
      atLeast(RIGHT[minute] ?? 0),
    ),
    share(`${name}: right among decided, leak named is enough`, decided, right('leak_named')),
    share(
      `${name}: undecided`,
      lines,
      ({ verdict }) => !isDecided(verdict),
      barOf(UNDECIDED[minute]),
    ),
    ...RISE_CLASSES.flatMap((kind) => {
      const of = lines.filter((line) => line.kind === kind);
      return [
        share(`${name}:   ${kind}: undecided`, of, ({ verdict }) => !isDecided(verdict)),
        share(
          `${name}:   ${kind}: wrong`,
          of,
          (line) => isDecided(line.verdict) && !right('to_the_word')(line),
        ),
      ];
    }),
    share(
      `${name}: leak named of one below 3 micron/min`,
      lines.filter(({ trueLeakPaPerS }) => trueLeakPaPerS < 3 * AWAY_PA_PER_S),
      ({ verdict }) => verdict === 'leak' || verdict === 'leak_and_moisture',
    ),
    share(`${name}: leak's interval holds a leak above 1 micron/min`, leaks, holds, {
      low: 87,
      high: 93,
    }),
    share(
      `${name}:   leak above its interval`,
      leaks,
      ({ trueLeakPaPerS, leakPaPerS }) => trueLeakPaPerS > (leakPaPerS?.high ?? -1),
    ),
    share(
      `${name}: no leak: the interval's upper end covers`,
      none,
      ({ trueLeakPaPerS, leakPaPerS }) => trueLeakPaPerS <= (leakPaPerS?.high ?? -1),
      atLeast(90),
    ),
    share(`${name}: no leak: the interval holds it`, none, holds),
    quantileRow(
      `${name}: median width of the leak's interval`,
      widths,
      0.5,
      'micron/min',
      barOf(WIDTH[minute]),
    ),
  ];
}

function holds({ trueLeakPaPerS, leakPaPerS }: RiseLine): boolean {
  return (
    leakPaPerS !== null && leakPaPerS.low <= trueLeakPaPerS && trueLeakPaPerS <= leakPaPerS.high
  );
}

function tightRows(lines: readonly RiseLine[]): Row[] {
  const said = ({ verdict }: RiseLine) => verdict === 'tight_dry';
  const above = lines.filter(
    ({ trueLeakPaPerS }) => trueLeakPaPerS > DEFAULT_SHEET.leakLimitPaPerS,
  );
  const borderline = lines.filter(({ kind }) => kind === 'borderline');
  return [
    share("'tight and dry' said of a leak above the limit, all moments", above, said, atMost(0)),
    share("'tight and dry' said of a borderline one", borderline, said, atMost(1)),
    share(
      '  of a borderline one whose leak is above the limit',
      borderline.filter(({ trueLeakPaPerS }) => trueLeakPaPerS > DEFAULT_SHEET.leakLimitPaPerS),
      said,
    ),
  ];
}

export function firstRows(lines: readonly FirstLine[]): Row[] {
  return [
    quantileRow(
      'first right verdict that no later one contradicts: median',
      lines.map(({ firstRightS }) => (firstRightS ?? Infinity) / 60),
      0.5,
      'min',
      atMost(5),
    ),
    share('  none within the half hour', lines, ({ firstRightS }) => firstRightS === null),
    share(
      "'tight and dry' ever said of a leak above the limit",
      lines.filter(({ trueLeakPaPerS }) => trueLeakPaPerS > DEFAULT_SHEET.leakLimitPaPerS),
      ({ saidTightS }) => saidTightS.length > 0,
      atMost(0),
    ),
  ];
}

export function endRows(lines: readonly EndLine[]): Row[] {
  return END_SAID_S.flatMap((atS) => {
    const at = lines.filter((line) => line.atS === atS && line.clean);
    const errors = at.map(({ truePa, saidPa }) =>
      saidPa ? (100 * Math.abs(saidPa.estimate - truePa)) / truePa : 100,
    );
    const within = ({ truePa, saidPa }: EndLine) =>
      saidPa !== null && saidPa.low <= truePa && truePa <= saidPa.high;
    return [
      quantileRow(
        `end of 600 s said at ${atS} s: median error`,
        errors,
        0.5,
        '%',
        atMost(END_ERROR[atS] ?? 0),
      ),
      share(`end of 600 s said at ${atS} s: interval holds`, at, within, { low: 85, high: 95 }),
    ];
  });
}
