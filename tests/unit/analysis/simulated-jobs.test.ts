/** The rehearsals' rigs, judged: a physical model that the judge never reads. */
import { expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { play } from '../../../simulators/scenarios/play.ts';
import { judge } from '../../../web/analysis/judge.ts';
import { historyOf } from '../../support/invented-curves.ts';

/** What is right to say of each at the end of its hold. */
const RIGHT: Readonly<Record<string, string>> = {
  'lindens-dental-practice': 'moisture',
  'weir-street-archive': 'leak_and_moisture',
  'quarry-road-bakery': 'tight_dry',
};

test.each(ALL_SCENARIOS.map((scenario) => ({ name: scenario.card.name, scenario })))(
  '$name is told by the end, with and without marks, and never passed against the truth',
  ({ name, scenario }) => {
    const { rows, marks, truth } = play(scenario, 4);
    const history = historyOf(
      rows.map(({ elapsedS, pressurePa, temperatureC }) => ({
        elapsedS,
        pressurePa,
        temperatureC,
        condition: pressurePa === null ? 'over_range' : 'ok',
      })),
    );
    const made = marks.map((mark, i) => ({ ...mark, id: i + 1, madeBy: 'rehearsal' as const }));
    const endS = rows.at(-1)?.elapsedS ?? 0;
    const isolatedS = marks.find(({ kind }) => kind === 'isolated')?.elapsedS ?? 0;

    const marked = judge(history, made, DEFAULT_SHEET, endS).rise;
    expect(marked?.verdict).toBe(RIGHT[name]);
    expect(marked?.leakPaPerS.low).toBeLessThanOrEqual(truth.leakPaPerS);
    expect(marked?.leakPaPerS.high).toBeGreaterThanOrEqual(truth.leakPaPerS);

    const unmarked = judge(history, [], DEFAULT_SHEET, endS);
    expect(unmarked.stage).toMatchObject({ name: 'rise', recognisedBy: 'curve' });
    expect(Math.abs(unmarked.stage.sinceS - isolatedS)).toBeLessThan(15);
    expect(unmarked.rise?.verdict.startsWith('leak')).toBe(truth.leakPaPerS > 0);

    if (truth.leakPaPerS <= DEFAULT_SHEET.leakLimitPaPerS) return;
    for (let nowS = isolatedS; nowS <= endS; nowS += 60) {
      expect(judge(history, made, DEFAULT_SHEET, nowS).rise?.verdict).not.toBe('tight_dry');
    }
  },
);
