/** Which recording is shown, whether its number is live, and which marks are offered. */
import { describe, expect, test } from 'vitest';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import type { Recording } from '../../../protocol/recording.ts';
import type { SourcePhase, SourceState } from '../../../protocol/source-state.ts';
import { initialConnection } from '../../../web/connection/connection-core.ts';
import { markChoices } from '../../../web/live/mark-choices.ts';
import { chooseRecording } from '../../../web/store/choose-recording.ts';
import { freshness } from '../../../web/store/freshness.ts';

function recording(id: number, open: boolean): Recording {
  return { id, open, origin: 'sensor', startedAtMs: 0, title: '', sensors: [] };
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

describe('freshness', () => {
  const live = { ...initialConnection(0), phase: 'live', sinceMs: 1000 } as const;

  test.each([
    ['live', 'live'],
    ['paused', 'paused'],
    ['finished', 'ended'],
    ['stale', 'stale'],
    ['lost', 'stale'],
    ['searching', 'stale'],
  ] as const)('a sensor that is %s makes the number %s', (phase, kind) => {
    expect(freshness(live, recording(1, true), source(phase)).kind).toBe(kind);
  });

  test('a lost bridge counts before anything that it said', () => {
    const lost = { ...live, phase: 'lost', sinceMs: 2000 } as const;
    expect(freshness(lost, recording(1, true), source('live'))).toEqual({
      kind: 'stale',
      sinceMs: 2000,
      why: 'connection',
    });
  });

  test('catching up is not live', () => {
    const behind = { ...live, phase: 'catching_up' } as const;
    expect(freshness(behind, recording(1, true), source('live')).kind).toBe('catching_up');
  });

  test('a recording that is over is over, whatever its sensor does now', () => {
    expect(freshness(live, recording(1, false), source('live')).kind).toBe('ended');
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
