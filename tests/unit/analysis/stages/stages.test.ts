import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import type { HistoryPoint } from '../../../../web/analysis/readings/history.ts';
import { historyOf, normal, seeded } from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

/** 20 s over range, a pull-down to 28 Pa, valved off at 600 s, rising by 4 Pa a minute. */
function job(elapsedS: number): number | null {
  if (elapsedS < 20) return null;
  if (elapsedS < 600) return 28 + 2500 * Math.exp(-(elapsedS - 20) / 30);
  return 28 + (4 * (elapsedS - 600)) / 60 + 6 * (1 - Math.exp(-(elapsedS - 600) / 40));
}

function pointsOf(curve: (elapsedS: number) => number | null, lengthS: number): HistoryPoint[] {
  const random = seeded(7);
  return Array.from({ length: lengthS + 1 }, (_, elapsedS) => {
    const pressurePa = curve(elapsedS);
    return pressurePa === null
      ? { elapsedS, pressurePa, condition: 'over_range', temperatureC: null }
      : {
          elapsedS,
          pressurePa: pressurePa * (1 + 0.002 * normal(random)),
          condition: 'ok',
          temperatureC: null,
        };
  });
}

const mark = (kind: MarkKind, elapsedS: number, id = 1): Mark => ({
  id,
  kind,
  elapsedS,
  text: '',
  madeBy: 'hand',
});
const stageAt = (points: readonly HistoryPoint[], nowS: number, marks: readonly Mark[] = []) =>
  judge(historyOf(points), marks, DEFAULT_SHEET, nowS).stage;

test('the curve alone tells waiting, pull-down, depth and rise apart', () => {
  const points = pointsOf(job, 900);
  expect(stageAt(points, 10).name).toBe('waiting');
  expect(stageAt(points, 100)).toMatchObject({ name: 'pull_down', recognisedBy: 'curve' });
  expect(stageAt(points, 560).name).toBe('at_depth');
  const rise = stageAt(points, 780);
  expect(rise).toMatchObject({ name: 'rise', recognisedBy: 'curve' });
  expect(Math.abs(rise.sinceS - 600)).toBeLessThan(10);
});

test('what changes the leak or what the sensor sees begins a hold anew, and nothing before it', () => {
  const points = pointsOf(job, 900);
  const isolated = mark('isolated', 600);
  for (const kind of ['joints_tightened', 'sections_opened', 'stub_shut', 'stub_opened'] as const) {
    expect(stageAt(points, 900, [isolated, mark(kind, 700, 2)]).sinceS, kind).toBe(700);
    expect(stageAt(points, 500, [mark(kind, 400)])).toEqual(stageAt(points, 500));
  }
  for (const kind of ['cores_out', 'oil_changed', 'battery_changed'] as const) {
    expect(stageAt(points, 900, [isolated, mark(kind, 700, 2)]).sinceS, kind).toBe(600);
  }
});

test('alone on its stub the sensor gives no verdict on the system, until it is opened again', () => {
  const history = historyOf(pointsOf(job, 1800));
  const shut = [mark('isolated', 600), mark('stub_shut', 700, 2)];
  const rise = (marks: readonly Mark[]) => judge(history, marks, DEFAULT_SHEET, 1700).rise;
  expect(rise(shut)).toMatchObject({ verdict: 'undecided' });
  expect(rise(shut)?.reservations).toContain('not_the_system');
  const opened = [...shut, mark('stub_opened', 750, 3)];
  expect(rise(opened)?.verdict).toBe('leak');
  expect(rise(opened)?.reservations).not.toContain('not_the_system');
});

test('a forecast begins afresh where the rig is another', () => {
  const history = historyOf(pointsOf(job, 300));
  for (const kind of ['cores_out', 'oil_changed', 'sections_opened', 'joints_tightened'] as const) {
    const marks = [mark('pump_on', 20), mark(kind, 150, 2)];
    expect(judge(history, marks, DEFAULT_SHEET, 300).forecast?.sinceS, kind).toBe(150);
  }
});

test('a mark overrides the curve', () => {
  const points = pointsOf(job, 900);
  expect(stageAt(points, 590, [mark('isolated', 580)])).toEqual({
    name: 'rise',
    sinceS: 580,
    recognisedBy: 'mark',
    alternatives: [],
  });
  expect(stageAt(points, 900, [mark('isolated', 600), mark('reopened', 890, 2)]).name).toBe(
    'pull_down',
  );
  expect(stageAt(points, 900, [mark('nitrogen_break', 890)]).name).toBe('nitrogen_break');
});

test('a second pull-down after a hold is recognised without a mark', () => {
  const again = (elapsedS: number) =>
    elapsedS < 900 ? job(elapsedS) : 25 + 29 * Math.exp(-(elapsedS - 900) / 30);
  expect(stageAt(pointsOf(again, 1000), 1000)).toMatchObject({
    name: expect.stringMatching(/^(pull_down|at_depth)$/u),
    recognisedBy: 'curve',
    alternatives: [],
  });
});

test('a slow drift at depth that sets in gently is no isolation', () => {
  // Warmth sets in over ten minutes: an exponential's integral.
  const warmed = (sinceS: number) => sinceS - 600 * (1 - Math.exp(-sinceS / 600));
  const drifting = (elapsedS: number) =>
    elapsedS < 600 ? job(elapsedS) : 28 * (1 + warmed(elapsedS - 600) / 8000);
  expect(stageAt(pointsOf(drifting, 2400), 2400).name).toBe('at_depth');
});

test('missing readings in a hold are a gap; a system that stays open is vented', () => {
  const blank = (elapsedS: number) => (elapsedS > 700 && elapsedS < 760 ? null : job(elapsedS));
  expect(stageAt(pointsOf(blank, 900), 900, [mark('isolated', 600)])).toMatchObject({
    name: 'rise',
    sinceS: 600,
  });
  const opened = pointsOf((elapsedS) => (elapsedS > 850 ? null : job(elapsedS)), 900);
  const conclusions = judge(historyOf(opened), [mark('isolated', 600)], DEFAULT_SHEET, 900);
  expect(conclusions.stage).toMatchObject({ name: 'nitrogen_break', alternatives: ['vented'] });
  expect(conclusions.rise?.heldS).toBeCloseTo(250, 0);
});

test('a single low reading is no depth', () => {
  const points = pointsOf((elapsedS) => (elapsedS === 300 ? 5 : 200), 600);
  expect(judge(historyOf(points), [], DEFAULT_SHEET, 600).targetReachedS).toBeNull();
});
