/** What a reading and a judgement cost, and that neither grows with the length of the recording. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { z } from 'zod';
import type { Mark } from '../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { History } from '../../web/analysis/readings/history.ts';
import { judge } from '../../web/analysis/judge.ts';
import { JUDGING_GRID_S } from '../../web/analysis/readings/judging-grid.ts';
import { benchFits } from './fit-bench.ts';
import {
  fill,
  HELD_S,
  HERTZ,
  insert,
  ISOLATED_S,
  JOB_MARKS,
  jobPa,
  pullDownPa,
} from './long-session.ts';
import { processorMs, quantile, timings, wallMs } from './timings.ts';

const EARLY_S = 600;
const LATE_S = 24 * 3600;
const JUDGEMENTS = 100;
const INSERTS = 5000;
/**
 * What either may take, by the wall's clock: that is what the page waits for. The processor's time of a process counts
 * what the compiler and the collector do in other threads meanwhile, half as much again. Settings of ours.
 */
const FOLD_LIMIT_US = 50;
const JUDGE_LIMIT_MS = 5;

interface Cost {
  readonly foldUs: readonly number[];
  readonly judgeMs: readonly number[];
}

interface Row {
  readonly name: string;
  readonly ratio: number;
  readonly detail: string;
}

export function benchJudge(): Row[] {
  const before = heapMb();
  const history = new History();
  fill(history, pullDownPa, 0, EARLY_S);
  const early = cost(history, EARLY_S);
  const earlyMb = heapMb() - before;
  fill(history, pullDownPa, EARLY_S + INSERTS / HERTZ, LATE_S);
  const late = cost(history, LATE_S);
  const lateMb = heapMb() - before;
  const [earlyMs, lateMs] = [quantile(early.judgeMs, 0.5), quantile(late.judgeMs, 0.5)];
  const [earlyUs, lateUs] = [mean(early.foldUs), mean(late.foldUs)];
  return [
    {
      name: 'fold one reading: hour 24 / minute 10, at 10 Hz, mean',
      ratio: lateUs / earlyUs,
      detail: `${earlyUs.toFixed(2)} and ${lateUs.toFixed(2)} µs`,
    },
    {
      name: `fold one reading: p99 / ${FOLD_LIMIT_US} µs`,
      ratio: quantile(late.foldUs, 0.99) / FOLD_LIMIT_US,
      detail: `p99 ${quantile(late.foldUs, 0.99).toFixed(1)} µs at hour 24`,
    },
    {
      name: 'judge once: hour 24 / minute 10, at 10 Hz, median',
      ratio: lateMs / earlyMs,
      detail: `${earlyMs.toFixed(1)} and ${lateMs.toFixed(1)} ms`,
    },
    ...benchJob(),
    ...benchFits(),
    {
      name: 'memory: a day at 10 Hz / its readings as plain numbers (864 000 · 16 B)',
      ratio: lateMb / ((LATE_S * HERTZ * 16) / 1e6),
      detail: `${earlyMb.toFixed(1)} MB after 10 min, ${lateMb.toFixed(1)} MB after 24 h, whatever the rate`,
    },
  ];
}

/** A stretch that is judged as a page does it: at each moment of the grid, on what has come by then. */
interface Stretch {
  readonly name: string;
  readonly history: () => History;
  readonly fromS: number;
  readonly marks: readonly Mark[];
}

/** Of a job's later pull-down and of its hold, and where a session is as long as makes it cost most. */
const STRETCHES: readonly Stretch[] = [
  { name: 'a pull-down', history: jobHistory, fromS: ISOLATED_S - HELD_S, marks: JOB_MARKS },
  { name: 'a hold', history: jobHistory, fromS: ISOLATED_S + 2, marks: JOB_MARKS },
  {
    name: 'a pull-down of 18 hours',
    history: longHistory,
    fromS: 18 * 3600 - HELD_S,
    marks: JOB_MARKS.slice(0, 1),
  },
];
/** Another program's turn on the processor, or a collection that serves many of them, is in none of the least. */
const ROUNDS = 5;

function benchJob(): Row[] {
  return STRETCHES.map(({ name, history, fromS, marks }) => {
    // The first is to warm up. Each on a history of its own: what is kept is kept with the history.
    const rounds = Array.from({ length: 1 + ROUNDS }, () => {
      const own = history();
      return timings(HELD_S / JUDGING_GRID_S, wallMs, (turn) => {
        judge(own, marks, DEFAULT_SHEET, fromS + turn * JUDGING_GRID_S);
      });
    }).slice(1);
    const least = (share: number) =>
      quantile(
        rounds.map((ms) => quantile(ms, share)).sort((x, y) => x - y),
        0.25,
      );
    return {
      name: `judge once in ${name}: p99 / ${JUDGE_LIMIT_MS} ms`,
      ratio: least(0.99) / JUDGE_LIMIT_MS,
      detail: `median ${least(0.5).toFixed(1)} ms, p99 ${least(0.99).toFixed(1)} ms: lower quartiles of ${ROUNDS} rounds`,
    };
  });
}

function longHistory(): History {
  const history = new History();
  // Once in two seconds: what a day costs goes by its bins.
  for (let elapsedS = 0; elapsedS < 18 * 3600; elapsedS += 2) {
    insert(history, pullDownPa, elapsedS);
  }
  return history;
}

function jobHistory(): History {
  const history = new History();
  fill(history, jobPa, 0, ISOLATED_S + HELD_S + 1);
  return history;
}

function cost(history: History, nowS: number): Cost {
  judge(history, [], DEFAULT_SHEET, nowS);
  const judgeMs = timings(JUDGEMENTS, processorMs, () => {
    judge(history, [], DEFAULT_SHEET, nowS);
  });
  const foldMs = timings(INSERTS, wallMs, (turn) => {
    insert(history, pullDownPa, nowS + turn / HERTZ);
  });
  return { judgeMs, foldUs: foldMs.map((ms) => 1000 * ms) };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** What is in use after a collection, MB, arrays outside the heap included. */
function heapMb(): number {
  setFlagsFromString('--expose-gc');
  const collect = z.function().parse(runInNewContext('gc'));
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 1e6;
}
