/** Which recording is shown, whether its number is live, and which marks are offered. */
import { describe, expect, test } from 'vitest';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import type { Recording } from '../../../protocol/recording.ts';
import type { SourcePhase, SourceState } from '../../../protocol/source-state.ts';
import { initialConnection } from '../../../web/connection/connection-core.ts';
import { markChoices } from '../../../web/live/mark-choices.ts';
import { chooseRecording } from '../../../web/store/choose-recording.ts';
import { freshness, isCurrent } from '../../../web/store/freshness.ts';
import { sourceOf } from '../../../web/store/source-of.ts';

const KEPT = { kind: 'kept' } as const;

function recording(id: number, open: boolean): Recording {
  return { id, open, origin: 'sensor', startedAtMs: 0, title: '', takenFrom: null, sensors: [] };
}

function source(phase: SourcePhase): SourceState {
  return {
    id: 'a',
    kind: 'radio',
    name: 'a',
    phase,
    sinceMs: 5000,
    problem: null,
    batteryPercent: null,
    signalDbm: null,
    clockRate: 1,
    sensors: [],
  };
}

describe('the recording shown', () => {
  test('stays while it runs, and gives way to one that runs once it has ended', () => {
    expect(chooseRecording([recording(1, true), recording(2, true)], 1)).toBe(1);
    expect(chooseRecording([recording(1, false), recording(2, true)], 1)).toBe(2);
  });

  test('without any that runs, it stays, or is the latest', () => {
    expect(chooseRecording([recording(1, false), recording(2, false)], 1)).toBe(1);
    expect(chooseRecording([recording(2, false), recording(1, false)], null)).toBe(2);
    expect(chooseRecording([], null)).toBeNull();
  });
});

const live = { ...initialConnection(0), phase: 'live', sinceMs: 1000 } as const;

describe('freshness', () => {
  test.each([
    ['live', 'live'],
    ['paused', 'paused'],
    ['finished', 'ended'],
    ['stale', 'stale'],
    ['lost', 'stale'],
    ['searching', 'stale'],
  ] as const)('a sensor that is %s makes the number %s', (phase, kind) => {
    expect(freshness(live, recording(1, true), source(phase), KEPT).kind).toBe(kind);
  });

  test('a lost bridge counts before anything that it said', () => {
    const lost = { ...live, phase: 'lost', sinceMs: 2000 } as const;
    expect(freshness(lost, recording(1, true), source('live'), KEPT)).toEqual({
      kind: 'stale',
      sinceMs: 2000,
      why: 'connection',
    });
  });

  test.each(['held', 'stalled', 'damaged'] as const)(
    'while the record is %s, what is shown is the last reading of it, and nothing follows from that',
    (kind) => {
      const record =
        kind === 'held'
          ? ({ kind, sinceMs: 9000, detail: 'full', waiting: 12, refused: 0 } as const)
          : kind === 'stalled'
            ? ({ kind, sinceMs: 9000, waiting: 12, refused: 0 } as const)
            : ({ kind, sinceMs: 9000, detail: 'malformed', file: 'beside' } as const);
      const state = freshness(live, recording(1, true), source('live'), record);
      expect(state).toEqual({ kind: 'stale', sinceMs: 9000, why: 'record' });
      expect(isCurrent(state)).toBe(false);
      // What is over was kept before.
      expect(freshness(live, recording(1, false), source('live'), record).kind).toBe('ended');
    },
  );

  test('a record that was saved from a damaged one takes readings', () => {
    const none = { saved: 0, atLeast: 0 };
    const saved = { kind: 'salvaged', folder: '', readings: none, otherFacts: none } as const;
    expect(freshness(live, recording(1, true), source('live'), saved).kind).toBe('live');
  });

  test('catching up is not live', () => {
    const behind = { ...live, phase: 'catching_up' } as const;
    expect(freshness(behind, recording(1, true), source('live'), KEPT).kind).toBe('catching_up');
  });

  test('a recording that is over is over, whatever its sensor does now', () => {
    expect(freshness(live, recording(1, false), source('live'), KEPT).kind).toBe('ended');
  });
});

describe('with two sensors in one recording', () => {
  const identity = (id: string) => ({
    id,
    name: id,
    manufacturer: null,
    model: null,
    serial: null,
    firmware: null,
    label: null,
    calibratedOn: null,
  });
  const both = { ...recording(1, true), sensors: [identity('roof'), identity('cellar')] };
  const roof = {
    sensorId: 'roof',
    name: 'roof',
    phase: 'live',
    sinceMs: 1,
    problem: null,
    batteryPercent: 80,
    signalDbm: -50,
  } as const;
  const cellar = {
    sensorId: 'cellar',
    name: 'cellar',
    phase: 'lost',
    sinceMs: 7,
    problem: 'sensor_lost',
    batteryPercent: 9,
    signalDbm: null,
  } as const;
  // As a radio says it: name and condition are those of the sensor that is best off.
  const radio = (sensors: SourceState['sensors']): SourceState => ({
    ...source('live'),
    name: 'roof',
    batteryPercent: 80,
    signalDbm: -50,
    sensors,
  });

  test('the one that is watched is shown as it is, and not as the other one is', () => {
    const sources = [radio([roof, cellar])];
    expect(sourceOf(both, 0, sources)).toMatchObject({ phase: 'live', batteryPercent: 80 });
    const watched = sourceOf(both, 1, sources);
    expect(watched).toMatchObject({
      phase: 'lost',
      sinceMs: 7,
      problem: 'sensor_lost',
      batteryPercent: 9,
      signalDbm: null,
    });
    expect(freshness(live, both, watched, KEPT)).toEqual({
      kind: 'stale',
      sinceMs: 7,
      why: 'sensor',
    });
  });

  test('one that was not heard since the bridge was started takes nothing from the other', () => {
    const watched = sourceOf(both, 1, [radio([roof])]);
    expect(watched).toMatchObject({ phase: 'searching', batteryPercent: null, signalDbm: null });
    expect(freshness(live, both, watched, KEPT).kind).toBe('stale');
  });

  test('a radio that is not there outweighs both', () => {
    const off = { ...radio([]), phase: 'unavailable', problem: 'adapter_off' } as const;
    for (const channel of [0, 1]) {
      for (const sensors of [[], [{ ...roof, phase: off.phase, problem: off.problem }]]) {
        const watched = sourceOf(both, channel, [{ ...off, sensors }]);
        expect(watched).toMatchObject({ phase: 'unavailable', problem: 'adapter_off' });
      }
    }
  });

  test('a source without sensors of its own speaks for itself', () => {
    const rehearsal = { ...source('paused'), kind: 'rehearsal' } as const;
    const played = { ...both, origin: 'rehearsal' } as const;
    expect(sourceOf(played, 0, [radio([roof]), rehearsal])).toBe(rehearsal);
    expect(sourceOf(null, 0, [])).toBeNull();
  });
});

test('of each thing of the rig only the other way is offered', () => {
  const mark = (kind: MarkKind, elapsedS: number): Mark => ({
    id: elapsedS,
    kind,
    elapsedS,
    text: '',
    madeBy: 'hand',
  });
  expect(markChoices([], false)).toEqual([
    'pump_on',
    'ballast_closed',
    'isolated',
    'nitrogen_break',
    'note',
  ]);
  const done = [mark('isolated', 9), mark('pump_on', 1), mark('ballast_closed', 5)];
  expect(markChoices(done, true)).toEqual(['pump_off', 'ballast_opened', 'reopened', 'note']);
});
