/** Runs the trials and makes the table of what was said. */
import type { Line, LineWithFacts } from './lines.ts';
import { forecastRows, neverRows, watchRows } from './forecast-rows.ts';
import { endRows, firstRows, riseRows } from './rise-rows.ts';
import type { Row } from './row.ts';
import { secondPullDown, secondRise } from './second-world-trials.ts';
import { tellPullDown } from './tell-pull-down.ts';
import { tellRise } from './tell-rise.ts';

export interface Size {
  readonly firstSeed: number;
  readonly pullDowns: number;
  readonly rises: number;
  /** Every so manieth case is judged all along. */
  readonly watchEvery: number;
}

export function* secondWorldLines(size: Size): Generator<LineWithFacts> {
  const { firstSeed, pullDowns, rises, watchEvery } = size;
  for (let i = 0; i < pullDowns; i += 1) {
    const trial = secondPullDown(firstSeed + i);
    for (const line of tellPullDown(trial, i % watchEvery === 0))
      yield { ...line, facts: trial.facts };
  }
  for (let i = 0; i < rises; i += 1) {
    const trial = secondRise(firstSeed + i);
    // Classes go round by seed: every so manieth of each.
    const watch = Math.floor(i / 5) % watchEvery === 0;
    for (const line of tellRise(trial, watch)) yield { ...line, facts: trial.facts };
  }
}

export function tableOf(lines: readonly Line[]): Row[] {
  const of = <W extends Line['what']>(what: W) =>
    lines.filter((line): line is Extract<Line, { what: W }> => line.what === what);
  return [
    ...forecastRows(of('forecast')),
    ...neverRows(of('never')),
    ...watchRows(of('watch')),
    ...riseRows(of('rise')),
    ...firstRows(of('first')),
    ...endRows(of('end')),
  ];
}
