/** Section 7 of the profile's document, row by row, over the virtual air. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import {
  READING_UUID,
  RECORD_ACCESS_UUID,
  STORED_READINGS_UUID,
} from '../../../protocol/profile.ts';
import { decodeAnswer, encodeRequest } from '../../../protocol/record-access.ts';
import type { AccessAnswer } from '../../../protocol/record-access.ts';
import { VirtualAir } from '../../../simulators/sensor/virtual-air.ts';
import { VirtualSensor } from '../../../simulators/sensor/virtual-sensor.ts';
import type { VirtualSensorOptions } from '../../../simulators/sensor/virtual-sensor.ts';
import { AttCentral } from '../../support/att-central.ts';

const ALL = encodeRequest({ opCode: 'report', selection: { operator: 'all' } });
const ABORT = encodeRequest({ opCode: 'abort' });
const NOTIFY = 1;
const INDICATE = 2;

let air: VirtualAir;
let central: AttCentral;
let sensor: VirtualSensor;
/** Handles of reading, stored readings and control point. */
let live = 0;
let stored = 0;
let point = 0;

beforeEach(() => {
  air = new VirtualAir();
  central = new AttCentral(air);
});
afterEach(() => air.close());

/** A sensor with this many readings, connected; its bytes are returned. */
async function meet(count: number, options: VirtualSensorOptions = {}): Promise<Uint8Array[]> {
  sensor = new VirtualSensor(air, options);
  const sent = measure(count);
  await link();
  return sent;
}

async function link(): Promise<void> {
  await central.connect(sensor.controller.address);
  live = (await central.find(READING_UUID)) ?? 0;
  stored = (await central.find(STORED_READINGS_UUID)) ?? 0;
  point = (await central.find(RECORD_ACCESS_UUID)) ?? 0;
}

async function configure(): Promise<void> {
  expect(await central.configure(stored, NOTIFY)).toBeUndefined();
  expect(await central.configure(point, INDICATE)).toBeUndefined();
}

function measure(count: number): Uint8Array[] {
  return Array.from({ length: count }, (_, i) => sensor.measure(1000 - i / 8).bytes);
}

function answers(): (AccessAnswer | null)[] {
  return central.from(point).map((value) => decodeAnswer(value));
}

async function ask(request: Uint8Array): Promise<AccessAnswer | null | undefined> {
  const before = answers().length;
  expect(await central.write(point, request)).toBeUndefined();
  await central.until(() => answers().length > before);
  return answers()[before];
}

const hex = (values: readonly Uint8Array[]) =>
  values.map((value) => Buffer.from(value).toString('hex'));

describe('report and count', () => {
  test('send what was measured, byte for byte, oldest first, also before anybody listened', async () => {
    const sent = await meet(40);
    await configure();
    expect(await ask(ALL)).toEqual({ opCode: 'response', to: 'report', outcome: 'success' });
    expect(hex(central.from(stored))).toEqual(hex(sent));
    expect(central.pushed.at(-1)?.kind).toBe('indication');
  });

  test.each([
    ['from 37', [1, 3, 1, 37, 0, 0, 0], [37, 38, 39]],
    ['up to 1', [1, 2, 1, 1, 0, 0, 0], [0, 1]],
    ['within', [1, 4, 1, 5, 0, 0, 0, 7, 0, 0, 0], [5, 6, 7]],
    ['first', [1, 5], [0]],
    ['last', [1, 6], [39]],
  ])('%s', async (_, request, expected) => {
    const sent = await meet(40);
    await configure();
    const counted = await ask(Uint8Array.of(4, ...request.slice(1)));
    expect(counted).toEqual({ opCode: 'countResponse', count: expected.length });
    expect(central.from(stored)).toEqual([]);
    expect(await ask(Uint8Array.from(request))).toMatchObject({ outcome: 'success' });
    expect(hex(central.from(stored))).toEqual(hex(expected.map((i) => sent[i] ?? Buffer.of())));
  });

  test('a short ring has only the latest', async () => {
    const sent = await meet(40, { capabilities: { bufferDepth: 7 } });
    await configure();
    await ask(ALL);
    expect(hex(central.from(stored))).toEqual(hex(sent.slice(-7)));
  });

  test.each([true, false])('readings outlive a restart: %s', async (keepsOverRestart) => {
    const before = await meet(3, { keepsOverRestart });
    central.disconnect();
    await central.until(() => !central.connected);
    sensor.reboot();
    const after = measure(2);
    await link();
    await configure();
    await ask(ALL);
    const expected = keepsOverRestart ? [...before, ...after] : after;
    expect(hex(central.from(stored))).toEqual(hex(expected));
    expect(await ask(Uint8Array.of(4, 3, 1, 0, 0, 0, 0))).toMatchObject({ count: 2 });
  });
});

describe('live readings beside a report', () => {
  test('go first, and what is measured after the request is no part of it', async () => {
    const before = await meet(3000);
    await configure();
    await central.configure(live, NOTIFY);
    expect(await central.write(point, ALL)).toBeUndefined();
    await central.until(() => central.from(stored).length >= 100);
    const during = sensor.measure(1).bytes;
    await central.until(() => answers().length === 1);
    expect(hex(central.from(stored))).toEqual(hex(before));
    expect(hex(central.from(live))).toEqual(hex([during]));
    // At most what was on its way already is ahead of it: the controller's four packets, and one more.
    const place = central.pushed.findIndex(({ handle }) => handle === live);
    const ahead = central.pushed.slice(0, place).filter(({ handle }) => handle === stored);
    expect(ahead.length).toBeLessThan(110);
  });
});

describe('outcomes', () => {
  test.each([
    ['delete', [2, 1], 'opCodeNotSupported'],
    ['an answer', [6, 0, 1, 1], 'opCodeNotSupported'],
    ['an op code of nobody', [99, 1], 'opCodeNotSupported'],
    ['nothing', [], 'opCodeNotSupported'],
    ['report without operator', [1], 'invalidOperator'],
    ['report with operator 0', [1, 0], 'invalidOperator'],
    ['count with operator 0', [4, 0], 'invalidOperator'],
    ['abort with an operator', [3, 1], 'invalidOperator'],
    ['operator 7', [1, 7], 'operatorNotSupported'],
    ['too much after all', [1, 1, 1], 'invalidOperand'],
    ['too little after from', [1, 3, 1, 0, 0], 'invalidOperand'],
    ['an end before its beginning', [1, 4, 1, 2, 0, 0, 0, 1, 0, 0, 0], 'invalidOperand'],
    ['another filter type', [4, 3, 2, 0, 0, 0, 0], 'operandNotSupported'],
    ['what is not there', [1, 3, 1, 5, 0, 0, 0], 'noRecords'],
    ['abort of nothing', [3, 0], 'abortUnsuccessful'],
  ])('%s: %j is answered with %s', async (_, request, outcome) => {
    await meet(5);
    await configure();
    expect(await ask(Uint8Array.from(request))).toMatchObject({ opCode: 'response', outcome });
    expect(central.from(stored)).toEqual([]);
    // Whatever was asked, nothing is lost by it.
    expect(await ask(Uint8Array.of(4, 1))).toEqual({ opCode: 'countResponse', count: 5 });
  });

  test('no record at all: report says so, count says 0', async () => {
    await meet(0);
    await configure();
    expect(await ask(ALL)).toMatchObject({ to: 'report', outcome: 'noRecords' });
    expect(await ask(Uint8Array.of(4, 1))).toEqual({ opCode: 'countResponse', count: 0 });
  });

  test.each([false, true])('abort stops a report; it tells of that: %s', async (tells) => {
    await meet(3000, { tellsOfAbortedReport: tells, reportPauseMs: 1 });
    await configure();
    expect(await central.write(point, ALL)).toBeUndefined();
    await central.until(() => central.from(stored).length >= 5);
    expect(await central.write(point, ABORT)).toBeUndefined();
    await central.until(() => answers().length > (tells ? 1 : 0));
    const aborted = { opCode: 'response', to: 'abort', outcome: 'success' };
    const report = { opCode: 'response', to: 'report', outcome: 'notCompleted' };
    expect(answers()).toEqual(tells ? [report, aborted] : [aborted]);
    const sent = central.from(stored).length;
    expect(sent).toBeLessThan(3000);
    expect(await ask(Uint8Array.of(4, 1))).toMatchObject({ count: 3000 });
    expect(central.from(stored)).toHaveLength(sent);
  });

  test('a report whose readings are no longer wanted is not completed', async () => {
    await meet(3000, { reportPauseMs: 1 });
    await configure();
    await central.write(point, ALL);
    await central.configure(stored, 0);
    await central.until(() => answers().length > 0);
    expect(answers()).toEqual([{ opCode: 'response', to: 'report', outcome: 'notCompleted' }]);
  });
});

test('a report without anybody to answer to ends without a word', async () => {
  await meet(3000, { reportPauseMs: 1 });
  await configure();
  await central.write(point, ALL);
  await central.until(() => central.from(stored).length >= 3);
  await central.configure(point, 0);
  await central.configure(point, INDICATE);
  expect(await ask(ABORT)).toMatchObject({ to: 'abort', outcome: 'abortUnsuccessful' });
  expect(answers()).toHaveLength(1);
});

describe('errors on the write itself', () => {
  test('0xFD while indications, or for a report notifications, are not configured', async () => {
    await meet(5);
    expect(await central.write(point, ABORT)).toBe(0xfd);
    await central.configure(stored, NOTIFY);
    expect(await central.write(point, ALL)).toBe(0xfd);
    // Notifications of the control point are none of its properties.
    await central.configure(point, NOTIFY);
    expect(await central.write(point, ALL)).toBe(0xfd);
    await central.configure(point, INDICATE);
    await central.configure(stored, 0);
    expect(await central.write(point, ALL)).toBe(0xfd);
    expect(await ask(Uint8Array.of(4, 1))).toMatchObject({ count: 5 });
  });

  test('0xFE while a report is under way, except for abort', async () => {
    await meet(3000, { reportPauseMs: 1 });
    await configure();
    await central.write(point, ALL);
    expect(await central.write(point, ALL)).toBe(0xfe);
    expect(await central.write(point, Uint8Array.of(4, 1))).toBe(0xfe);
    expect(await central.write(point, Uint8Array.of(2, 1))).toBe(0xfe);
    expect(await ask(ABORT)).toMatchObject({ to: 'abort', outcome: 'success' });
  });
});

describe('the link', () => {
  test('takes a report with it when it ends, and all configurations', async () => {
    await meet(3000, { reportPauseMs: 1 });
    await configure();
    await central.write(point, ALL);
    await central.until(() => central.from(stored).length >= 3);
    central.disconnect();
    await central.until(() => !central.connected);
    const before = central.pushed.length;
    await link();
    expect(await central.write(point, Uint8Array.of(4, 1))).toBe(0xfd);
    await configure();
    expect(await ask(Uint8Array.of(4, 1))).toMatchObject({ count: 3000 });
    // Nothing of the old report came over the new link.
    expect(central.pushed).toHaveLength(before + 1);
  });

  test('carries one indication at a time', async () => {
    await meet(5);
    await configure();
    central.confirms = false;
    for (let i = 0; i < 3; i += 1) await central.write(point, Uint8Array.of(4, 1));
    expect(answers()).toHaveLength(1);
    central.confirm();
    await central.until(() => answers().length === 2);
    central.confirm();
    await central.until(() => answers().length === 3);
  });
});

test('a sensor that keeps nothing lacks both characteristics', async () => {
  await meet(5, { capabilities: { bufferDepth: 0 } });
  expect([live > 0, stored, point]).toEqual([true, 0, 0]);
});

test('54 000 readings, faster than time, keep their own clock and arrive in order', async () => {
  let nowMs = 0;
  await meet(0, { clock: () => nowMs, startsAt: { sequence: 4_294_940_000, uptimeMs: 0 } });
  await central.configure(live, NOTIFY);
  const sent: Uint8Array[] = [];
  for (let i = 0; i < 54_000; i += 1) {
    nowMs += 100;
    const reading = sensor.measure(i % 2000);
    if (!reading.delivered) throw new Error(`reading ${i} was not delivered`);
    sent.push(reading.bytes);
    if (i % 200 === 0) await sensor.drained();
  }
  await central.until(() => central.pushed.length === sent.length);
  const all = Buffer.concat(sent);
  expect(Buffer.concat(central.from(live)).equals(all)).toBe(true);
  expect(all.readUInt32LE(17 * 53_999 + 3)).toBe(4_294_940_000 + 53_999 - 2 ** 32);
  expect(all.readUInt32LE(17 * 53_999 + 7)).toBe(5_400_000);
});
