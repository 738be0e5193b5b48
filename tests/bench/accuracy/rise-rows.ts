/** The rise's part of the table. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import { RISE_CLASSES } from '../../support/second-world/rise-class.ts';
import type { EndLine, FirstLine, RiseLine } from './lines.ts';
import { isAway, isNone, isSmall } from './leak-sizes.ts';
import { isDecided, isRight } from './right-verdict.ts';
import { atLeast, atMost, type Cell, quantile, type Section, share } from './table.ts';
import { END_SAID_S, MINUTES } from './tell-rise.ts';

/** The bar, for 5, 10, 15 and 30 minutes. */
const RIGHT = [94, 95, 96, 98];
const UNDECIDED = [45, 22, 12, 5];
const WIDTH = [undefined, 9, undefined, 3];

type Lines = readonly RiseLine[];

export function riseSection(lines: Lines): Section {
  const columns = MINUTES.map((minute) => lines.filter((line) => line.minute === minute));
  const row = (name: string, cell: (of: Lines, column: number) => Cell, unit = '%') => ({
    name,
    unit,
    cells: columns.map(cell),
  });
  const decided = (of: Lines) => of.filter(({ verdict }) => isDecided(verdict));
  return {
    title: 'rise',
    columns: MINUTES.map((minute) => `at ${minute} min`),
    rows: [
      row('right among decided, to the word', (of, i) =>
        share(decided(of), rightToTheWord, atLeast(RIGHT[i])),
      ),
      row('right among decided, a leak named is enough', (of) =>
        share(decided(of), rightLeakNamed),
      ),
      row('undecided', (of, i) => share(of, isUndecided, atMost(UNDECIDED[i]))),
      ...RISE_CLASSES.flatMap((kind) => [
        row(`  ${kind}: undecided`, (of) => share(ofKind(of, kind), isUndecided)),
        row(`  ${kind}: wrong`, (of) => share(ofKind(of, kind), isWrong)),
      ]),
      row('a leak named of one below 3 micron/min', (of) => share(of.filter(isSmall), namesLeak)),
      row("leak's interval holds a leak above 1 micron/min", (of) =>
        share(of.filter(isAway), holds, { low: 87, high: 93 }),
      ),
      row('  the leak is below it', (of) =>
        share(
          of.filter(isAway),
          ({ trueLeakPaPerS, leakPaPerS }) =>
            leakPaPerS !== null && trueLeakPaPerS < leakPaPerS.low,
        ),
      ),
      row('  the leak is above it', (of) => share(of.filter(isAway), isAbove)),
      row("no leak: the interval's upper end covers", (of) =>
        share(of.filter(isNone), (line) => !isAbove(line), atLeast(90)),
      ),
      row('  the interval holds it', (of) => share(of.filter(isNone), holds)),
      row("median width of the leak's interval", widths, 'micron/min'),
    ],
  };
}

function widths(of: Lines, column: number): Cell {
  const each = of.flatMap(({ leakPaPerS }) =>
    leakPaPerS ? [60 * micronFromPa(leakPaPerS.high - leakPaPerS.low)] : [],
  );
  return quantile(each, 0.5, atMost(WIDTH[column]));
}

const ofKind = (of: Lines, kind: RiseLine['kind']) => of.filter((line) => line.kind === kind);
const isUndecided = ({ verdict }: RiseLine) => !isDecided(verdict);
const rightToTheWord = ({ kind, trueLeakPaPerS, verdict }: RiseLine) =>
  isRight(kind, trueLeakPaPerS, verdict, 'to_the_word');
const rightLeakNamed = ({ kind, trueLeakPaPerS, verdict }: RiseLine) =>
  isRight(kind, trueLeakPaPerS, verdict, 'leak_named');
const isWrong = (line: RiseLine) => isDecided(line.verdict) && !rightToTheWord(line);
const namesLeak = ({ verdict }: RiseLine) => verdict === 'leak' || verdict === 'leak_and_moisture';
const isTooMuch = ({ trueLeakPaPerS }: { readonly trueLeakPaPerS: number }) =>
  trueLeakPaPerS > DEFAULT_SHEET.leakLimitPaPerS;
const isAbove = ({ trueLeakPaPerS, leakPaPerS }: RiseLine) =>
  trueLeakPaPerS > (leakPaPerS?.high ?? -1);
const holds = ({ trueLeakPaPerS, leakPaPerS }: RiseLine) =>
  leakPaPerS !== null && leakPaPerS.low <= trueLeakPaPerS && trueLeakPaPerS <= leakPaPerS.high;

/** What must never be said, and how soon the right thing is. */
export function safetySection(lines: Lines, watched: readonly FirstLine[]): Section {
  const saysTight = ({ verdict }: RiseLine) => verdict === 'tight_dry';
  const borderline = ofKind(lines, 'borderline');
  const one = (name: string, cell: Cell, unit = '%') => ({ name, unit, cells: [cell] });
  return {
    title: 'rise, over all moments',
    columns: [''],
    rows: [
      one(
        "'tight and dry' said of a leak above the limit",
        share(lines.filter(isTooMuch), saysTight, atMost(0)),
      ),
      one(
        '  at any time of rises judged all along, each 30 s',
        share(watched.filter(isTooMuch), ({ saidTightS }) => saidTightS.length > 0, atMost(0)),
      ),
      one("'tight and dry' said of a borderline one", share(borderline, saysTight, atMost(1))),
      one('  of one whose leak is above the limit', share(borderline.filter(isTooMuch), saysTight)),
      one(
        'first right verdict that no later one contradicts: median',
        quantile(
          watched.map(({ firstRightS }) => (firstRightS ?? Infinity) / 60),
          0.5,
          atMost(5),
        ),
        'min',
      ),
      one(
        '  none within the half hour',
        share(watched, ({ firstRightS }) => firstRightS === null),
      ),
    ],
  };
}

const END_ERROR = [8, 3, 1.3];

export function endSection(lines: readonly EndLine[]): Section {
  const error = ({ truePa, saidPa }: EndLine) =>
    saidPa ? (100 * Math.abs(saidPa.estimate - truePa)) / truePa : 100;
  const within = ({ truePa, saidPa }: EndLine) =>
    saidPa !== null && saidPa.low <= truePa && truePa <= saidPa.high;
  const rows = [true, false].flatMap((clean) => {
    const columns = END_SAID_S.map((atS) =>
      lines.filter((line) => line.atS === atS && line.clean === clean),
    );
    const name = clean ? 'clean curves' : 'as read';
    return [
      {
        name: `${name}: median error`,
        unit: '%',
        cells: columns.map((of, i) => quantile(of.map(error), 0.5, atMost(END_ERROR[i]))),
      },
      {
        name: '  interval holds the truth',
        unit: '%',
        cells: columns.map((of) => share(of, within, { low: 85, high: 95 })),
      },
    ];
  });
  return {
    title: 'end of a hold of 600 s',
    columns: END_SAID_S.map((atS) => `said at ${atS} s`),
    rows,
  };
}
