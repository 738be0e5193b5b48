/**
 * One reading's update of forecast and rise, against one nonlinear fit by a general-purpose library
 * (ml-levenberg-marquardt) of a single model to the same window. Its settings are its own defaults, but for
 * the steps of its difference quotients: one size for all parameters makes it give up.
 */
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { History } from '../../web/analysis/readings/history.ts';
import { judge } from '../../web/analysis/judge.ts';
import { JUDGING_GRID_S } from '../../web/analysis/readings/judging-grid.ts';
import { fill, HELD_S, HERTZ, insert, ISOLATED_S, JOB_MARKS, jobPa } from './long-session.ts';
import { processorMs, quantile, timings, wallMs } from './timings.ts';

/** Readings between two judgements. */
const READINGS_PER_JUDGEMENT = HERTZ * JUDGING_GRID_S;
const FITS = 5;
const FOLDS = 4000;
/** Each at the next point of the grid: at the one before nothing would be left to reckon. */
const JUDGEMENTS = 200;

interface Row {
  readonly name: string;
  readonly ratio: number;
  readonly detail: string;
}

export function benchFits(): Row[] {
  return [
    compared(
      'a hold of 15 min',
      ISOLATED_S,
      HELD_S,
      (parameters) => {
        const [start = 0, leak = 0, amount = 0, tau = 1] = parameters;
        return (t) => start + leak * t + amount * (1 - Math.exp(-t / tau));
      },
      [60, 0.01, 50, 150],
    ),
    compared(
      '15 min of a pull-down',
      ISOLATED_S - HELD_S,
      HELD_S,
      (parameters) => {
        const [floor = 0, size = 0, rate = 0] = parameters;
        return (t) => floor + size * Math.exp(-rate * t);
      },
      [50, 5, 1e-3],
    ),
  ].flat();
}

function compared(
  name: string,
  fromS: number,
  lengthS: number,
  curve: (parameters: number[]) => (t: number) => number,
  start: number[],
): Row[] {
  const x = Array.from({ length: lengthS * HERTZ }, (_, i) => i / HERTZ);
  const y = x.map((t) => jobPa(fromS + t));
  const thinned = x.flatMap((t, i) => (i % HERTZ === 0 ? [t] : []));
  const fit = (places: number[], values: number[]) =>
    quantile(
      timings(FITS, processorMs, () => {
        levenbergMarquardt({ x: places, y: values }, curve, {
          initialValues: start,
          gradientDifference: start.map((value) => 1e-4 * value),
        });
      }),
      0.5,
    );
  const fitMs = fit(x, y);
  const thinnedMs = fit(
    thinned,
    y.filter((_, i) => i % HERTZ === 0),
  );

  const history = new History();
  const nowS = fromS + lengthS;
  let atS = nowS - JUDGEMENTS * JUDGING_GRID_S;
  fill(history, jobPa, 0, atS);
  const judgedMs: number[] = [];
  for (; atS < nowS; atS += JUDGING_GRID_S) {
    fill(history, jobPa, atS, atS + JUDGING_GRID_S);
    const beganMs = processorMs();
    judge(history, JOB_MARKS, DEFAULT_SHEET, atS + JUDGING_GRID_S);
    judgedMs.push(processorMs() - beganMs);
  }
  const judgeMs = quantile(
    judgedMs.sort((a, b) => a - b),
    0.5,
  );
  const foldMs = quantile(
    timings(FOLDS, wallMs, (turn) => {
      insert(history, jobPa, nowS + 1 + turn / HERTZ);
    }),
    0.5,
  );
  const updateMs = foldMs + judgeMs / READINGS_PER_JUDGEMENT;
  const update = `${(1000 * updateMs).toFixed(0)} µs: folding, and a twentieth of a judgement of ${judgeMs.toFixed(1)} ms`;
  return [
    {
      name: `${name}: a general-purpose fit of its readings / one reading’s update`,
      ratio: fitMs / updateMs,
      detail: `${fitMs.toFixed(0)} ms for ${x.length} readings; ${update}`,
    },
    {
      name: `${name}: the same fit of one reading a second / one whole judgement`,
      ratio: thinnedMs / judgeMs,
      detail: `${thinnedMs.toFixed(1)} ms for ${thinned.length}, and ${judgeMs.toFixed(1)} ms`,
    },
  ];
}
