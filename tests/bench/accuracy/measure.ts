/** Runs the trials and makes the table of what was said. */
import type { Line, LineWithFacts } from './lines.ts';
import { forecastSections, neverSection, watchSection } from './forecast-rows.ts';
import { endSection, riseSection, safetySection } from './rise-rows.ts';
import type { Section } from './table.ts';
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

export function tableOf(lines: readonly Line[]): Section[] {
  const of = <W extends Line['what']>(what: W) =>
    lines.filter((line): line is Extract<Line, { what: W }> => line.what === what);
  return [
    ...forecastSections(of('forecast')),
    neverSection(of('never')),
    watchSection(of('watch')),
    riseSection(of('rise')),
    safetySection(of('rise'), of('first')),
    endSection(of('end')),
  ];
}
