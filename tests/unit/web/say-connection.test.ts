import { expect, test } from 'vitest';
import type { SourcePhase, SourceState } from '../../../protocol/source-state.ts';
import { sayConnection, saySource } from '../../../web/words/say-connection.ts';
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

test('a bridge of another version is no bridge that is lost: one is told what to do', () => {
  const said = sayConnection({ phase: 'lost', otherVersion: true }, '09:14', MICRON);
  expect(said.text).toMatch(/different versions/u);
  expect(said.remedy).toMatch(/close all its windows.*npm start/iu);
  const lost = sayConnection({ phase: 'lost', otherVersion: false }, '09:14', MICRON);
  expect(lost.text).toMatch(/lost since 09:14/u);
});
