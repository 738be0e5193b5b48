/** Runs the trials and makes the table of what was said. */
import type { Line, LineWithFacts } from './lines.ts';
import { forecastSections, momentSection, neverSection, watchSection } from './forecast-rows.ts';
import { endSection, riseSection, safetySection } from './rise-rows.ts';
import type { Section } from './table.ts';
import { RISE_CLASSES } from '../../support/second-world/rise-class.ts';
import { repeatSection } from './repeat-rows.ts';
import { tellPullDown } from './tell-pull-down.ts';
import { tellRepeat } from './tell-repeat.ts';
import { tellRise } from './tell-rise.ts';
import type { World } from './trials.ts';

export interface Size {
  readonly firstSeed: number;
  readonly pullDowns: number;
  readonly rises: number;
  readonly repeats: number;
  /** One case in so many is judged all along. */
  readonly watchEvery: number;
}

export function* linesOf(world: World, size: Size): Generator<LineWithFacts> {
  const { firstSeed, pullDowns, rises, repeats, watchEvery } = size;
  for (let i = 0; i < pullDowns; i += 1) {
    const trial = world.pullDown(firstSeed + i);
    // Half of them are wet by their seed: each second pair.
    const watch = Math.floor(i / 2) % watchEvery === 0;
    for (const line of tellPullDown(trial, watch)) yield { ...line, facts: trial.facts };
  }
  for (let i = 0; i < rises; i += 1) {
    const trial = world.rise(firstSeed + i);
    // Classes go round by seed: whole rounds.
    const watch = Math.floor(i / RISE_CLASSES.length) % watchEvery === 0;
    for (const line of tellRise(trial, watch)) yield { ...line, facts: trial.facts };
  }
  for (let i = 0; i < repeats; i += 1) {
    const trial = world.repeat(firstSeed + i);
    yield { ...tellRepeat(trial), facts: trial.facts };
  }
}

export function tableOf(lines: readonly Line[]): Section[] {
  const of = <W extends Line['what']>(what: W) =>
    lines.filter((line): line is Extract<Line, { what: W }> => line.what === what);
  return [
    ...forecastSections(of('forecast')),
    momentSection(of('moment')),
    neverSection(of('never')),
    watchSection(of('watch')),
    riseSection(of('rise')),
    safetySection(of('rise'), of('first')),
    endSection(of('end')),
    repeatSection(of('repeat')),
  ];
}
