import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CAPABILITIES_FIELDS, READING_FIELDS } from '../../../protocol/profile.ts';
import { decode, encode, encodedLength } from '../../../protocol/profile-codec.ts';
import type { Values } from '../../../protocol/profile-codec.ts';

const reading: Values<typeof READING_FIELDS> = {
  flags: { overRange: false, underRange: false, warmingUp: false, fault: false, timeReset: false },
  boot: 1,
  sequence: 2,
  uptimeMs: 3,
  pressurePa: 4.567,
  temperatureC: -12.34,
};

describe('decoding', () => {
  test('any bytes give a reading or a reason, never an exception', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
        const decoded = decode(READING_FIELDS, bytes);
        expect(decoded.ok).toBe(bytes.length >= encodedLength(READING_FIELDS));
      }),
    );
  });

  test('what decodes encodes to the same bytes, reserved bits aside', () => {
    const length = encodedLength(READING_FIELDS);
    fc.assert(
      fc.property(fc.uint8Array({ minLength: length, maxLength: length }), (bytes) => {
        const decoded = decode(READING_FIELDS, bytes);
        if (!decoded.ok) throw new Error(decoded.detail);
        const again = encode(READING_FIELDS, decoded.values);
        expect([...again.subarray(1)]).toEqual([...bytes.subarray(1)]);
        expect(again[0]).toBe((bytes[0] ?? 0) & 0b11111);
      }),
    );
  });

  test('says how many bytes are missing', () => {
    expect(decode(READING_FIELDS, new Uint8Array(16))).toEqual({
      ok: false,
      reason: 'length',
      detail: '16 bytes where 17 are needed',
    });
  });

  test('bytes of a later minor version are ignored', () => {
    const longer = new Uint8Array([...encode(READING_FIELDS, reading), 0xaa, 0xbb]);
    expect(decode(READING_FIELDS, longer)).toEqual({ ok: true, values: reading });
  });

  test('a reserved choice or an impossible month is refused, not guessed', () => {
    const bytes = new Uint8Array(encodedLength(CAPABILITIES_FIELDS));
    bytes[2] = 99;
    expect(decode(CAPABILITIES_FIELDS, bytes)).toMatchObject({ ok: false, reason: 'reserved' });
    bytes[2] = 0;
    bytes[24] = 13;
    expect(decode(CAPABILITIES_FIELDS, bytes)).toMatchObject({
      ok: false,
      detail: expect.stringContaining('calibrationMonth'),
    });
  });

  test('a view into a larger buffer is read at its own offset', () => {
    const padded = new Uint8Array([9, 9, 9, ...encode(READING_FIELDS, reading)]);
    expect(decode(READING_FIELDS, padded.subarray(3))).toEqual({ ok: true, values: reading });
  });
});

describe('encoding refuses what would be read as something else', () => {
  test.each([
    ['negative pressure', { pressurePa: -1 }],
    ['pressure that is the not-known value', { pressurePa: 0xffff_ffff / 1000 }],
    ['not a number', { pressurePa: Number.NaN }],
    ['too cold', { temperatureC: -400 }],
    ['boot id too large', { boot: 0x1_0000 }],
  ])('%s', (_what, change) => {
    expect(() => encode(READING_FIELDS, { ...reading, ...change })).toThrow(RangeError);
  });
});
