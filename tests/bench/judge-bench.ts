/** What a reading and a judgement cost, and that neither grows with the length of the recording. */
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { History } from '../../web/analysis/history.ts';
import { judge } from '../../web/analysis/judge.ts';

const HERTZ = 10;
const EARLY_S = 600;
const LATE_S = 24 * 3600;
const JUDGEMENTS = 20;
const INSERTS = 5000;

interface Cost {
  readonly insertUs: number;
  readonly judgeMs: number;
}

export function benchJudge(): { name: string; ratio: number; detail: string }[] {
  const history = new History();
  fill(history, 0, EARLY_S);
  const early = cost(history, EARLY_S);
  fill(history, EARLY_S + INSERTS / HERTZ, LATE_S);
  const late = cost(history, LATE_S);
  return [
    {
      name: 'fold one reading: hour 24 / minute 10, at 10 Hz',
      ratio: late.insertUs / early.insertUs,
      detail: `${early.insertUs.toFixed(1)} and ${late.insertUs.toFixed(1)} µs`,
    },
    {
      name: 'judge once: hour 24 / minute 10, at 10 Hz',
      ratio: late.judgeMs / early.judgeMs,
      detail: `${early.judgeMs.toFixed(1)} and ${late.judgeMs.toFixed(1)} ms`,
    },
  ];
}

/** An invented slow pull-down with a ripple in place of noise. */
function pressurePa(elapsedS: number): number {
  return (
    60 + 90_000 * Math.exp(-elapsedS / 40) + 4000 / (elapsedS + 20) + Math.sin(elapsedS * 7) * 0.2
  );
}

function insert(history: History, elapsedS: number): void {
  history.insert({
    elapsedS,
    pressurePa: pressurePa(elapsedS),
    condition: 'ok',
    temperatureC: 20,
  });
}

function fill(history: History, fromS: number, toS: number): void {
  for (let row = Math.round(fromS * HERTZ); row < toS * HERTZ; row += 1)
    insert(history, row / HERTZ);
}

function cost(history: History, nowS: number): Cost {
  const sheet = { ...DEFAULT_SHEET };
  judge(history, [], sheet, nowS);
  const judgingMs = performance.now();
  for (let turn = 0; turn < JUDGEMENTS; turn += 1) judge(history, [], sheet, nowS);
  const judgedMs = performance.now();
  fill(history, nowS, nowS + INSERTS / HERTZ);
  const insertedMs = performance.now();
  return {
    judgeMs: (judgedMs - judgingMs) / JUDGEMENTS,
    insertUs: ((insertedMs - judgedMs) * 1000) / INSERTS,
  };
}
