/** How narrow a learner's interval of the leak can be if nine in ten are to hold. */
import { micronFromPa } from '../../../protocol/units.ts';
import { median } from '../../../web/analysis/fitting/median.ts';
import { boostMedian } from './boosted-trees.ts';
import type { RiseRow } from './rise-features.ts';

const HELD = 0.9;
/** Away from zero, as in the table, micron/min. */
const AWAY = 1;
/** Leaks and errors differ by powers of ten: they are learnt as logarithms, of so much more, micron/min. */
const LITTLE = 1;
/** What sizes of error are learnt from has to be others than what the leak is learnt from. */
const PARTS = 3;

interface Ranges {
  /** Median width, micron/min. */
  readonly width: number;
  /** Share of leaks away from zero that lie within. */
  readonly held: number;
}

/**
 * How wide the learner's have to be is chosen on the very cases that are asked about: more than any judge can have.
 *
 * @returns their median width, micron/min, where nine in ten of the leaks away from zero lie within
 */
export function learntWidth(learnt: readonly RiseRow[], asked: readonly RiseRow[]): number {
  const isForErrors = ({ trial }: RiseRow) => trial.seed % PARTS === 0;
  const first = learnt.filter((row) => !isForErrors(row));
  const second = learnt.filter(isForErrors);
  const leak = boostMedian(
    first.map(({ features }) => features),
    first.map((row) => Math.log(leakOf(row) + LITTLE)),
  );
  const said = (row: RiseRow) => Math.max(Math.exp(leak(row.features)) - LITTLE, 0);
  const error = boostMedian(
    second.map(({ features }) => features),
    second.map((row) => Math.log(Math.abs(said(row) - leakOf(row)) + LITTLE / 10)),
  );
  const size = (row: RiseRow) => Math.exp(error(row.features));
  const away = asked.filter((row) => leakOf(row) > AWAY);
  const needed = away
    .map((row) => Math.abs(said(row) - leakOf(row)) / size(row))
    .sort((a, b) => a - b);
  const factor = needed[Math.ceil(HELD * needed.length) - 1] ?? Infinity;
  const widths = asked.map((row) => {
    const half = factor * size(row);
    return said(row) + half - Math.max(said(row) - half, 0);
  });
  return median(widths);
}

/** The judge's own, of the same rises. */
export function judgedRanges(asked: readonly RiseRow[]): Ranges {
  const said = asked.flatMap(({ leakPaPerS, trial }) =>
    leakPaPerS === null ? [] : [{ ...leakPaPerS, truth: trial.leakPaPerS }],
  );
  const away = said.filter(({ truth }) => perMinute(truth) > AWAY);
  const held = away.filter(({ low, high, truth }) => low <= truth && truth <= high);
  return {
    width: median(said.map(({ low, high }) => perMinute(high - low))),
    held: held.length / away.length,
  };
}

function leakOf({ trial }: RiseRow): number {
  return perMinute(trial.leakPaPerS);
}

/** Pa/s as micron/min. */
function perMinute(paPerS: number): number {
  return 60 * micronFromPa(paPerS);
}
