/** Plays a scenario from beginning to end at once. */
import type { Reveal } from '../../protocol/api.ts';
import type { NewMark } from '../../protocol/mark.ts';
import { ScenarioRun } from './scenario-run.ts';
import type { ScenarioReading } from './scenario-run.ts';
import type { Scenario } from './scenario.ts';

interface Played {
  /** One a second. */
  readonly rows: readonly ScenarioReading[];
  readonly marks: readonly NewMark[];
  readonly truth: Reveal;
}

/**
 * Pure: the same scenario and seed give the same rows. With a helper it ends when the script does,
 * without one nothing is ever switched on.
 */
export function play(
  scenario: Scenario,
  seed: number,
  options: { readonly helper: boolean } = { helper: true },
): Played {
  const run = new ScenarioRun(scenario, seed, options);
  const rows: ScenarioReading[] = [];
  while (!run.finished) rows.push(run.next());
  return {
    rows,
    marks: rows.flatMap(({ elapsedS, event }) =>
      event === null ? [] : [{ kind: event, elapsedS, text: '' }],
    ),
    truth: run.reveal(),
  };
}
