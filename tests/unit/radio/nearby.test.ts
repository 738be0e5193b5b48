import { expect, test } from 'vitest';
import type { FromRadio } from '../../../server/sources/radio/messages.ts';
import { Nearby } from '../../../server/sources/radio/nearby.ts';
import { FakePeripheral } from '../../support/fake-peripheral.ts';

function ears() {
  const said: string[] = [];
  const report = (message: FromRadio): void => {
    if (message.type !== 'session') throw new Error(message.type);
    said.push(`${message.sensorId} ${message.phase} ${message.problem ?? ''}`.trim());
  };
  return { said, nearby: new Nearby(40_000, report) };
}

test('says once that a sensor is found, and once that it is no longer heard', () => {
  const { said, nearby } = ears();
  const sensor = new FakePeripheral('a');
  for (const nowMs of [0, 20_000, 50_000]) {
    nearby.heard(sensor, nowMs);
    nearby.forget(nowMs);
  }
  expect(said).toEqual(['a found']);
  nearby.forget(89_999);
  nearby.forget(90_000);
  nearby.forget(95_000);
  expect(said).toEqual(['a found', 'a lost sensor_lost']);
});

test('says nothing more of one that is being connected', () => {
  const { said, nearby } = ears();
  nearby.heard(new FakePeripheral('a'), 0);
  nearby.taken('a');
  nearby.forget(1e6);
  expect(said).toEqual(['a found']);
});

test('says when one that was offered is chosen, and takes an offer back without a word of loss', () => {
  const { said, nearby } = ears();
  nearby.heard(new FakePeripheral('a'), 0, 'sensor_not_chosen');
  nearby.heard(new FakePeripheral('b'), 0, 'sensor_not_chosen');
  nearby.heard(new FakePeripheral('a'), 1000, null);
  nearby.forget(60_000);
  expect(said).toEqual([
    'a found sensor_not_chosen',
    'b found sensor_not_chosen',
    'a found',
    'a lost sensor_lost',
    'b lost sensor_not_chosen',
  ]);
});

test('remembers no more than so many, whoever sends from ever new addresses', () => {
  const { said, nearby } = ears();
  for (let i = 0; i < 500; i += 1) nearby.heard(new FakePeripheral(`p${i}`), 0);
  expect(said).toHaveLength(64);
  nearby.forget(1e6);
  nearby.heard(new FakePeripheral('new'), 1e6);
  expect(said.at(-1)).toBe('new found');
});
