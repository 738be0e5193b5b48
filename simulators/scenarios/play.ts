/** Plays a scenario from beginning to end at once. */
import type { Reveal } from '../../protocol/api.ts';
import type { NewMark } from '../../protocol/mark.ts';
import { Performance } from './performance.ts';
import type { Moment } from './performance.ts';
import type { Scenario } from './scenario.ts';
import { truthOf } from './truth.ts';

interface Played {
  /** One a second. */
  readonly rows: readonly Moment[];
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
  const performance = new Performance(scenario, seed, options);
  const rows: Moment[] = [];
  while (!performance.finished) rows.push(performance.next());
  return {
    rows,
    marks: rows.flatMap(({ elapsedS, event }) =>
      event === null ? [] : [{ kind: event, elapsedS, text: '' }],
    ),
    truth: truthOf(scenario),
  };
}
