/** Each alert once per recording, none from a spike, and a verdict that changes is not kept quiet. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import type { AlertSituation } from '../../../web/alerts/alert-situation.ts';
import { dueAlerts as dueOf } from '../../../web/alerts/due-alerts.ts';
import { givenAlertsSchema, NO_ALERTS_GIVEN } from '../../../web/alerts/given-alerts.ts';
import type { GivenAlerts } from '../../../web/alerts/given-alerts.ts';
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { Conclusions } from '../../../web/analysis/conclusions.ts';
import type { AlertFact } from '../../../web/words/alert-fact.ts';
import { conclusionsWith, inRise } from './invented-conclusions.ts';

const ISOLATED_S = 1000;

/** Of a rig without marks, whose vacuum nobody loses. */
function dueAlerts(
  conclusions: Conclusions,
  sheet = DEFAULT_SHEET,
  given: GivenAlerts = NO_ALERTS_GIVEN,
  change: Partial<AlertSituation> = {},
) {
  const none = { marks: [], lossAfter: () => null, opening: false };
  return dueOf({ conclusions, sheet, ...none, ...change }, given);
}

const changedAt = (atS: number) => ({ kind: 'verdict_changed', atS, sinceS: atS });

/** As a browser keeps it between two visits. */
const remembered = (given: unknown): GivenAlerts =>
  givenAlertsSchema.parse(JSON.parse(JSON.stringify(given)));

/** What is announced while a hold is judged at these moments of it. */
function announcedIn(
  moments: readonly (readonly [heldS: number, verdict: Verdict])[],
  before: GivenAlerts = NO_ALERTS_GIVEN,
): AlertFact[] {
  let given = before;
  return moments.flatMap(([heldS, verdict]) => {
    const held = inRise({ sinceS: ISOLATED_S, heldS, verdict });
    const result = dueAlerts(held, DEFAULT_SHEET, given);
    given = remembered(result.given);
    return result.due;
  });
}

test('a pressure below the target that was not held raises nothing', () => {
  const spike = conclusionsWith({ pressurePa: paFromMicron(100), targetReachedS: null });
  const { due, given } = dueAlerts(spike);
  expect(due).toEqual([]);
  expect(given).toBe(NO_ALERTS_GIVEN);
});

test('the target is announced once, also across what a browser remembers', () => {
  const reached = conclusionsWith({ targetReachedS: 500 });
  const first = dueAlerts(reached, DEFAULT_SHEET, NO_ALERTS_GIVEN);
  expect(first.due).toEqual([
    { kind: 'target', atS: 500, sinceS: 100, targetPa: DEFAULT_SHEET.targetPa },
  ]);
  expect(dueAlerts(reached, DEFAULT_SHEET, remembered(first.given)).due).toEqual([]);
});

test('pumped again, no verdict of before still stands', () => {
  expect(dueAlerts(conclusionsWith({ rise: null })).over).toContain('verdict');
});

test('undecided is no verdict to announce before there was one', () => {
  const moments = [300, 400, 500].map((heldS) => [heldS, 'undecided'] as const);
  expect(announcedIn(moments)).toEqual([]);
});

test('a verdict is announced once per isolation, though its moment is refined', () => {
  const ready = inRise({ verdict: 'moisture' });
  const first = dueAlerts(ready, DEFAULT_SHEET, NO_ALERTS_GIVEN);
  expect(first.due).toEqual([
    { kind: 'verdict', atS: ready.nowS, sinceS: ISOLATED_S, verdict: 'moisture' },
  ]);
  const refined = inRise({ verdict: 'moisture', sinceS: 1015 });
  expect(dueAlerts(refined, DEFAULT_SHEET, first.given).due).toEqual([]);
  const again = inRise({ verdict: 'leak', sinceS: 3000 });
  expect(dueAlerts(again, DEFAULT_SHEET, first.given).due).toEqual([
    { kind: 'verdict', atS: again.nowS, sinceS: 3000, verdict: 'leak' },
  ]);
});

describe('a verdict that changes within one hold', () => {
  test.each([
    ['moisture', 'leak_and_moisture'],
    ['tight_dry', 'undecided'],
    ['leak', 'undecided'],
    ['tight_dry', 'leak'],
  ] as const)('from %s to %s is announced once it has stood', (before, verdict) => {
    const moments = [
      [300, before],
      [400, verdict],
      [430, verdict],
      [458, verdict],
    ] as const;
    const first = { kind: 'verdict', atS: ISOLATED_S + 300, sinceS: ISOLATED_S, verdict: before };
    expect(announcedIn(moments)).toEqual([first]);
    const stood = [...moments, [460, verdict], [470, verdict], [900, verdict]] as const;
    expect(announcedIn(stood)).toEqual([
      first,
      { ...changedAt(ISOLATED_S + 400), verdict, before },
    ]);
  });

  test('to and fro is not announced, however long that goes on', () => {
    const moments = Array.from(
      { length: 40 },
      (_, turn) => [300 + turn * 20, turn % 2 === 0 ? 'tight_dry' : 'undecided'] as const,
    );
    expect(announcedIn(moments)).toHaveLength(1);
  });

  test('to a second one has its wait begun anew', () => {
    const moments = [
      [300, 'tight_dry'],
      [400, 'leak'],
      [440, 'undecided'],
      [470, 'undecided'],
    ] as const;
    expect(announcedIn(moments)).toHaveLength(1);
    expect(announcedIn([...moments, [500, 'undecided']])).toHaveLength(2);
  });

  test('and comes back is announced both times', () => {
    const kinds = announcedIn([
      [300, 'tight_dry'],
      [400, 'undecided'],
      [500, 'undecided'],
      [600, 'tight_dry'],
      [720, 'tight_dry'],
    ]).map((fact) => fact.kind === 'verdict_changed' && [fact.before, fact.verdict]);
    expect(kinds).toEqual([false, ['tight_dry', 'undecided'], ['undecided', 'tight_dry']]);
  });

  test('at a limit it is said ever more slowly, and a pass is taken back as soon as ever', () => {
    const everyTenS = Array.from({ length: 360 }, (_, look) => 300 + look * 10);
    // To and fro every 100 s for an hour.
    const atLimit = (heldS: number) => (heldS % 200 < 100 ? 'tight_dry' : 'undecided');
    expect(announcedIn(everyTenS.map((s) => [s, atLimit(s)]))).toHaveLength(2);
    // Stays passed for three minutes and away for two: the second time back has to stand four.
    const slowly = (heldS: number) => (heldS % 300 < 180 ? 'tight_dry' : 'undecided');
    const facts = announcedIn(everyTenS.map((s) => [s, slowly(s)]));
    expect(facts.map(({ atS }) => atS - ISOLATED_S)).toEqual([300, 480, 600, 780]);
    // What stays is said in the end, however often it has changed.
    const stays = [...everyTenS.map((s) => [s, slowly(s)] as const), [4000, 'leak'] as const];
    const later = Array.from({ length: 26 }, (_, look) => [4000 + look * 10, 'leak'] as const);
    expect(announcedIn([...stays, ...later]).at(-1)).toMatchObject({ verdict: 'leak' });
  });

  test('does not age while the system is open again and the hold is over', () => {
    const changed = [
      [300, 'tight_dry'],
      [400, 'undecided'],
    ] as const;
    const opened = [400, 400, 400].map((heldS) => [heldS, 'undecided'] as const);
    expect(announcedIn([...changed, ...opened])).toHaveLength(1);
  });
});

describe('what was remembered before it was kept which verdict was announced', () => {
  const old = remembered({ target: true, verdictsSinceS: [ISOLATED_S] });

  test('announces neither the target nor that verdict again', () => {
    const reached = conclusionsWith({ targetReachedS: 500 });
    expect(dueAlerts(reached, DEFAULT_SHEET, old).due).toEqual([]);
    const moments = [300, 400, 500].map((heldS) => [heldS, 'tight_dry'] as const);
    expect(announcedIn(moments, old)).toEqual([]);
  });

  test('and announces its withdrawal', () => {
    const moments = [300, 360].map((heldS) => [heldS, 'undecided'] as const);
    expect(announcedIn(moments, old)).toEqual([
      { ...changedAt(ISOLATED_S + 300), verdict: 'undecided', before: null },
    ]);
  });

  test('and announces a change from the first that is seen', () => {
    const moments = [
      [300, 'tight_dry'],
      [400, 'leak'],
      [460, 'leak'],
    ] as const;
    expect(announcedIn(moments, old)).toEqual([
      { ...changedAt(ISOLATED_S + 400), verdict: 'leak', before: 'tight_dry' },
    ]);
  });
});
