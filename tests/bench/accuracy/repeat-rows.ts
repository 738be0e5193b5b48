/** What a repeated hold brings. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import type { RepeatLine } from './lines.ts';
import { isAway, isNone } from './leak-sizes.ts';
import { isDecided, isRight } from './right-verdict.ts';
import { atLeast, atMost, quantile, type Section, share } from './table.ts';

const HOLDS = [0, 1] as const;

export function repeatSection(lines: readonly RepeatLine[]): Section {
  const undecidedFirst = lines.filter(({ verdicts }) => !isDecided(verdicts[0]));
  return {
    title: 'repeat hold: 15 min, pumped on 10–20 min, 15 min',
    columns: ['after the first hold', 'after the second'],
    rows: [
      {
        name: 'undecided',
        unit: '%',
        cells: HOLDS.map((i) => share(lines, ({ verdicts }) => !isDecided(verdicts[i]))),
      },
      {
        name: '  of those that the first left undecided',
        unit: '%',
        cells: HOLDS.map((i) => share(undecidedFirst, ({ verdicts }) => !isDecided(verdicts[i]))),
      },
      {
        name: 'right among decided, a leak named is enough',
        unit: '%',
        cells: HOLDS.map((i) =>
          share(
            lines.filter(({ verdicts }) => isDecided(verdicts[i])),
            ({ kinds, trueLeakPaPerS, verdicts }) =>
              isRight(kinds[i], trueLeakPaPerS, verdicts[i], 'leak_named'),
          ),
        ),
      },
      {
        name: "'tight and dry' said of a leak above the limit",
        unit: '%',
        cells: HOLDS.map((i) =>
          share(
            lines.filter(({ trueLeakPaPerS }) => trueLeakPaPerS > DEFAULT_SHEET.leakLimitPaPerS),
            ({ verdicts }) => verdicts[i] === 'tight_dry',
            atMost(0),
          ),
        ),
      },
      {
        name: "the leak's interval holds a leak above 1 micron/min",
        unit: '%',
        cells: HOLDS.map((i) =>
          share(
            lines.filter(isAway),
            ({ trueLeakPaPerS, leaksPaPerS }) => {
              const said = leaksPaPerS[i];
              return said !== null && said.low <= trueLeakPaPerS && trueLeakPaPerS <= said.high;
            },
            { low: 87, high: 93 },
          ),
        ),
      },
      {
        name: "  no leak: the interval's upper end covers",
        unit: '%',
        cells: HOLDS.map((i) =>
          share(
            lines.filter(isNone),
            ({ trueLeakPaPerS, leaksPaPerS }) => trueLeakPaPerS <= (leaksPaPerS[i]?.high ?? -1),
            atLeast(90),
          ),
        ),
      },
      {
        name: '  the interval holds it',
        unit: '%',
        cells: HOLDS.map((i) =>
          share(lines.filter(isNone), ({ leaksPaPerS }) => leaksPaPerS[i]?.low === 0),
        ),
      },
      {
        name: "median width of the leak's interval",
        unit: 'micron/min',
        cells: HOLDS.map((i) =>
          quantile(
            lines.flatMap(({ leaksPaPerS }) => {
              const said = leaksPaPerS[i];
              return said ? [60 * micronFromPa(said.high - said.low)] : [];
            }),
            0.5,
          ),
        ),
      },
    ],
  };
}
