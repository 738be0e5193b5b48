/** When a depth is likely to be reached, as the chart has it. */
import { expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import type { Conclusions } from '../../../web/analysis/conclusions.ts';
import { chartOf } from '../../../web/chart/chart-of.ts';
import { ChannelCurve } from '../../../web/store/channel-curve.ts';
import { ChannelReadings } from '../../../web/store/channel-readings.ts';
import { conclusionsWith, forecastWith, inRise, micron } from './invented-conclusions.ts';
import { MICRON } from '../../support/english-speech.ts';

const drawn = (conclusions: Conclusions, foresees = true) =>
  chartOf({
    curve: new ChannelCurve(new ChannelReadings(0)),
    name: '',
    beside: () => [],
    behind: [],
    marks: [],
    sheet: DEFAULT_SHEET,
    conclusions,
    speech: MICRON,
    recording: { id: 1, origin: 'sensor', startedAtMs: 0, takenFrom: null, sensors: [] },
    expected: null,
    live: true,
    foresees,
    moments: [],
    view: null,
  });

test('target and depth have their moments on the recording’s clock', () => {
  // Now is 560 s; the target in 120, 180 or 300 s, the depth in 480, 660 or 960 s.
  expect(drawn(conclusionsWith()).arrivals).toEqual([
    { pressurePa: DEFAULT_SHEET.targetPa, earliestS: 680, middleS: 740, latestS: 860 },
    { pressurePa: DEFAULT_SHEET.isolateAtPa, earliestS: 1040, middleS: 1220, latestS: 1520 },
  ]);
});

test('an end that nobody knows is none', () => {
  const forecast = forecastWith({ remaining: { p10S: 60, p50S: 300, p90S: null } });
  expect(drawn(conclusionsWith({ forecast })).arrivals[0]?.latestS).toBeNull();
});

test.each(['levels_off', 'reached', 'too_early'] as const)(
  'a target that it %s has no time to come',
  (outcome) => {
    const forecast = forecastWith({ outcome, remainingToIsolation: null });
    expect(drawn(conclusionsWith({ forecast })).arrivals).toEqual([]);
  },
);

test('nor is anything foreseen in a rise, or of a reading that is not the present one', () => {
  expect(drawn(inRise()).arrivals).toEqual([]);
  const forecast = forecastWith({ outcome: 'levels_off', floorPa: micron(740, 610, 880) });
  const levelling = conclusionsWith({ forecast });
  const floors = (foresees: boolean) =>
    drawn(levelling, foresees).lines.filter(({ kind }) => kind === 'floor').length;
  expect([floors(true), floors(false)]).toEqual([1, 0]);
  expect(drawn(levelling, false).arrivals).toEqual([]);
});
