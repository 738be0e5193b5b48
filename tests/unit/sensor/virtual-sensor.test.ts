/** The parts of the virtual sensor that the radio doesn't exercise. */
import { describe, expect, test } from 'vitest';
import {
  CONTROL_UUID,
  IDENTIFY_FIELDS,
  READING_FIELDS,
  SET_INTERVAL_FIELDS,
} from '../../../protocol/profile.ts';
import { decode, encode } from '../../../protocol/profile-codec.ts';
import { ATT, ATT_ERROR, AttServer } from '../../../simulators/sensor/att-server.ts';
import { H4Splitter } from '../../../simulators/sensor/h4-splitter.ts';
import { uint16 } from '../../../simulators/sensor/hci.ts';
import { VirtualAir } from '../../../simulators/sensor/virtual-air.ts';
import { VirtualSensor } from '../../../simulators/sensor/virtual-sensor.ts';

const sensorAt = (clock: () => number = () => 0): VirtualSensor =>
  new VirtualSensor(new VirtualAir(), { clock });

describe('readings', () => {
  test('count on, carry the uptime, and begin anew with another boot', () => {
    let nowMs = 1000;
    const sensor = sensorAt(() => nowMs);
    const values = (bytes: Uint8Array) => {
      const decoded = decode(READING_FIELDS, bytes);
      return decoded.ok ? decoded.values : null;
    };
    nowMs = 1250;
    const first = { sequence: 0, uptimeMs: 250, pressurePa: 66.661 };
    expect(values(sensor.measure(66.661).bytes)).toMatchObject(first);
    expect(values(sensor.measure(null).bytes)).toMatchObject({
      sequence: 1,
      pressurePa: null,
      flags: { overRange: true },
    });
    const { boot } = values(sensor.measure(1).bytes) ?? { boot: NaN };
    sensor.reboot();
    nowMs = 1300;
    const afterwards = { sequence: 0, uptimeMs: 50, boot: boot + 1 };
    expect(values(sensor.measure(1).bytes)).toMatchObject(afterwards);
  });
});

describe('control', () => {
  test('sets the interval and is asked to show itself', () => {
    const sensor = sensorAt();
    const interval = encode(SET_INTERVAL_FIELDS, { command: 'setInterval', intervalMs: 200 });
    expect(sensor.control(interval)).toBeUndefined();
    expect(sensor.intervalMs).toBe(200);
    const identify = encode(IDENTIFY_FIELDS, { command: 'identify', seconds: 9 });
    expect(sensor.control(identify)).toBeUndefined();
    expect(sensor.identifyS).toBe(9);
  });

  test.each([
    ['nothing', Uint8Array.of()],
    ['a reserved command', Uint8Array.of(0, 1, 2)],
    ['an interval shorter than it can', Uint8Array.of(1, 1, 0)],
  ])('refuses %s', (_, bytes) => {
    const sensor = sensorAt();
    const before = sensor.intervalMs;
    expect(sensor.control(bytes)).toBe(ATT_ERROR.valueNotAllowed);
    expect([sensor.intervalMs, sensor.identifyS]).toEqual([before, 0]);
  });
});

describe('the attribute server', () => {
  const long = Uint8Array.from({ length: 30 }, (_, place) => place);
  const server = new AttServer(
    [
      {
        uuid: '180a',
        characteristics: [
          { uuid: '2a29', properties: ['read'], read: () => long },
          { uuid: CONTROL_UUID, properties: ['write'], write: (value) => value[0] },
        ],
      },
    ],
    23,
  );
  const ask = (opcode: number, handle: number, ...more: number[]): number[] => [
    ...(server.respond(Buffer.from([opcode, ...uint16(handle), ...more])) ?? []),
  ];

  test('shows a long value in parts of at most 22 bytes', () => {
    expect(ask(ATT.read, 3)).toEqual([ATT.read + 1, ...long.slice(0, 22)]);
    expect(ask(ATT.readBlob, 3, 22, 0)).toEqual([ATT.readBlob + 1, ...long.slice(22)]);
  });

  test.each([
    ['a handle that is not there', ATT.read, 99, ATT_ERROR.invalidHandle],
    ['reading what can only be written', ATT.read, 5, ATT_ERROR.readNotPermitted],
    ['writing what can only be read', ATT.write, 3, ATT_ERROR.writeNotPermitted],
  ])('refuses %s', (_, opcode, handle, error) => {
    expect(ask(opcode, handle)).toEqual([ATT.error, opcode, handle, 0, error]);
  });

  test('answers a write with what its owner says, and a command with nothing', () => {
    expect(ask(ATT.write, 5, ATT_ERROR.valueNotAllowed)).toEqual([
      ATT.error,
      ATT.write,
      5,
      0,
      ATT_ERROR.valueNotAllowed,
    ]);
    expect(ask(ATT.writeCommand, 5, ATT_ERROR.valueNotAllowed)).toEqual([]);
  });
});

describe('H4', () => {
  const packets = [
    [0x01, 0x03, 0x0c, 0],
    [0x02, 0x40, 0x20, 3, 0, 7, 8, 9],
    [0x04, 0x0e, 2, 1, 2],
    [0xf0, 1],
  ];

  test.each([1, 2, 3, 7, 100])('is cut right when it comes %i bytes at a time', (size) => {
    const bytes = packets.flat();
    const splitter = new H4Splitter();
    const cut: number[][] = [];
    for (let offset = 0; offset < bytes.length; offset += size) {
      const part = Uint8Array.from(bytes.slice(offset, offset + size));
      cut.push(...splitter.push(part).map((packet) => [...packet]));
    }
    expect(cut).toEqual(packets);
  });

  test('is refused where a packet of an unknown kind begins', () => {
    expect(() => new H4Splitter().push(Uint8Array.of(0x77))).toThrow('0x77');
  });
});
