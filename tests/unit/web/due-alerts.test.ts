/** Each alert once per recording, and none from a spike. */
import { expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { dueAlerts, givenAlertsSchema, NO_ALERTS_GIVEN } from '../../../web/alerts/due-alerts.ts';
import { conclusionsWith, inRise } from './invented-conclusions.ts';

test('a pressure below the target that was not held raises nothing', () => {
  const spike = conclusionsWith({ pressurePa: paFromMicron(100), targetReachedS: null });
  expect(dueAlerts(spike, DEFAULT_SHEET, NO_ALERTS_GIVEN)).toEqual({
    due: [],
    given: NO_ALERTS_GIVEN,
  });
});

test('the target is announced once, also across what a browser remembers', () => {
  const reached = conclusionsWith({ targetReachedS: 500 });
  const first = dueAlerts(reached, DEFAULT_SHEET, NO_ALERTS_GIVEN);
  expect(first.due).toEqual([{ kind: 'target', atS: 500, targetPa: DEFAULT_SHEET.targetPa }]);
  const remembered = givenAlertsSchema.parse(JSON.parse(JSON.stringify(first.given)));
  expect(dueAlerts(reached, DEFAULT_SHEET, remembered).due).toEqual([]);
});

test('undecided is no verdict to announce', () => {
  const waiting = inRise({ verdict: 'undecided' });
  expect(dueAlerts(waiting, DEFAULT_SHEET, NO_ALERTS_GIVEN).due).toEqual([]);
});

test('a verdict is announced once per isolation, though its moment is refined', () => {
  const ready = inRise({ verdict: 'moisture' });
  const first = dueAlerts(ready, DEFAULT_SHEET, NO_ALERTS_GIVEN);
  expect(first.due).toEqual([{ kind: 'verdict', atS: ready.nowS, verdict: 'moisture' }]);
  const refined = inRise({ verdict: 'leak', sinceS: 1015 });
  expect(dueAlerts(refined, DEFAULT_SHEET, first.given).due).toEqual([]);
  const again = inRise({ verdict: 'leak', sinceS: 3000 });
  expect(dueAlerts(again, DEFAULT_SHEET, first.given).due).toHaveLength(1);
});
