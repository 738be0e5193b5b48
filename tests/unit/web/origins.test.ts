/** Where a recording comes from is said wherever one is listed, and decides what the page does by itself. */
import { describe, expect, test } from 'vitest';
import { ORIGINS } from '../../../protocol/recording.ts';
import type { Origin, Recording } from '../../../protocol/recording.ts';
import { initialConnection } from '../../../web/connection/connection-core.ts';
import { chooseRecording, isRunning } from '../../../web/store/choose-recording.ts';
import { freshness } from '../../../web/store/freshness.ts';
import {
  sayOver,
  sayRecording,
  sayUnheard,
  sayWhen,
  sayWhenInList,
} from '../../../web/words/say-origin.ts';
import { MICRON } from '../../support/english-speech.ts';

const KEPT = { kind: 'kept' } as const;

function recording(origin: Origin, open = false, id = 1): Recording {
  const sensor = {
    id: 's',
    name: 'Roof',
    manufacturer: null,
    model: null,
    serial: null,
    firmware: null,
    label: null,
    calibratedOn: null,
  };
  return {
    id,
    open,
    origin,
    startedAtMs: 0,
    title: 'weir-street.csv',
    sensors: [sensor],
    takenFrom: null,
  };
}

describe('in words', () => {
  test('no two origins are listed alike', () => {
    const said = ORIGINS.map((origin) => sayRecording(recording(origin), MICRON));
    expect(new Set(said).size).toBe(ORIGINS.length);
    expect(said[ORIGINS.indexOf('import')]).toBe('Imported: weir-street.csv');
    expect(said[ORIGINS.indexOf('sensor')]).toBe('Job, Roof');
  });

  test('a file has no time of its own: it says when it was read in', () => {
    for (const open of [true, false]) {
      expect(sayWhen(recording('import', open), '14:03', MICRON)).toBe('read in 14:03');
      expect(sayWhenInList(recording('import', open), '14:03', MICRON)).toBe('read in 14:03');
    }
    expect(sayWhenInList(recording('sensor', true), '14:03', MICRON)).toBe('14:03, running');
  });

  test('only a sensor has something to say of itself', () => {
    const said = ORIGINS.map((origin) => sayUnheard(recording(origin), '14:03', MICRON));
    expect(ORIGINS.filter((_, at) => said[at] === null)).toEqual(['sensor', 'rehearsal']);
    expect(said[ORIGINS.indexOf('typed_in')]).toMatch(/14:03/u);
  });

  test('after its end only a rehearsal promises no other recording', () => {
    expect(ORIGINS.filter((origin) => sayOver(recording(origin), MICRON) === null)).toEqual([
      'rehearsal',
    ]);
  });
});

describe('a file that is being read in', () => {
  test('is nothing that runs: it takes no screen from a job, and nothing in it is now', () => {
    const file = recording('import', true, 9);
    expect(isRunning(file)).toBe(false);
    expect(chooseRecording([recording('sensor', true, 3), file], null)).toBe(3);
    expect(chooseRecording([recording('sensor', true, 3), file], 9)).toBe(3);
    const live = { ...initialConnection(0), phase: 'live', sinceMs: 0 } as const;
    expect(freshness(live, file, null, KEPT).kind).toBe('ended');
  });
});
