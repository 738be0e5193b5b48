import { expect, test } from 'vitest';
import type { SourcePhase, SourceState } from '../../../protocol/source-state.ts';
import { saySource } from '../../../web/words/say-connection.ts';
import { MICRON } from '../../support/english-speech.ts';

const source = (phase: SourcePhase): SourceState => ({
  id: 'radio',
  kind: 'radio',
  name: '',
  phase,
  sinceMs: 0,
  problem: null,
  batteryPercent: null,
  signalDbm: null,
  clockRate: 1,
  sensors: [],
});

test.each([
  ['unavailable', '', 'Bluetooth, not available'],
  ['live', '', 'Sensor, live'],
  ['live', 'Roof', 'Roof, live'],
] as const)('%s and the name "%s"', (phase, name, words) => {
  expect(saySource(source(phase), name, '09:14', MICRON)).toBe(words);
});
