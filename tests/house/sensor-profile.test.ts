/** The profile's document and its declaration say the same, and the document's examples hold. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import * as profile from '../../protocol/profile.ts';
import type { Field } from '../../protocol/profile.ts';
import { decode, encode, encodedLength } from '../../protocol/profile-codec.ts';
import {
  decodeAnswer,
  decodeRequest,
  encodeCount,
  encodeRequest,
  encodeResponse,
  opCodeNumber,
} from '../../protocol/record-access.ts';

const text = readFileSync(new URL('../../protocol/sensor-profile.md', import.meta.url), 'utf8');

/** The two lines (bytes, values) of every example of this kind. */
function examples(kind: string): { bytes: Uint8Array; values: unknown; json: string }[] {
  return [...text.matchAll(new RegExp(`^\`\`\`${kind}\\n([0-9A-F ]+)\\n(.+)\\n\`\`\``, 'gmu'))].map(
    ([, hex = '', json = '']) => ({
      bytes: Uint8Array.from(hex.split(' '), (byte) => Number.parseInt(byte, 16)),
      values: JSON.parse(json),
      json,
    }),
  );
}

/** A decoded value as the document writes it: flags as the list of those that are set. */
function asWritten(values: object): unknown {
  return Object.fromEntries(
    Object.entries(values).map(([name, value]: [string, unknown]) => {
      const flags = z.record(z.string(), z.boolean()).safeParse(value);
      if (!flags.success) return [name, value];
      return [name, Object.keys(flags.data).filter((flag) => flags.data[flag])];
    }),
  );
}

const CASES = [
  ['reading', 3, profile.READING_FIELDS],
  ['capabilities', 1, profile.CAPABILITIES_FIELDS],
  ['setInterval', 1, profile.SET_INTERVAL_FIELDS],
  ['identify', 1, profile.IDENTIFY_FIELDS],
] as const;

describe.each(CASES)('examples of %s', (kind, count, fields: readonly Field[]) => {
  const found = examples(kind);

  test('are all there', () => {
    expect(found).toHaveLength(count);
  });

  test.each(found)('$json', ({ bytes, values }) => {
    const decoded = decode(fields, bytes);
    if (!decoded.ok) throw new Error(decoded.detail);
    expect(asWritten(decoded.values)).toEqual(values);
    expect(encode(fields, decoded.values)).toEqual(bytes);
  });
});

describe('examples of record access', () => {
  const requests = examples('recordAccessRequest');
  const answers = examples('recordAccessAnswer');

  test('are all there', () => {
    expect([requests.length, answers.length]).toEqual([4, 3]);
  });

  test.each(requests)('request $json', ({ bytes, values }) => {
    const decoded = decodeRequest(bytes);
    if (!decoded.ok) throw new Error(decoded.outcome);
    expect(decoded.request).toEqual(values);
    expect(encodeRequest(decoded.request)).toEqual(bytes);
  });

  test.each(answers)('answer $json', ({ bytes, values }) => {
    const answer = decodeAnswer(bytes);
    expect(answer).toEqual(values);
    if (answer?.opCode === 'countResponse') expect(encodeCount(answer.count)).toEqual(bytes);
    if (answer?.opCode === 'response') {
      expect(encodeResponse(opCodeNumber(answer.to ?? 'report'), answer.outcome)).toEqual(bytes);
    }
  });

  test('codes in the tables are those of the codec', () => {
    const cells = (heading: string) => {
      const table = text.slice(text.indexOf(heading));
      const rows = [...table.slice(0, table.indexOf('\n\n')).matchAll(/^\| (\d+) \| (\w+)/gmu)];
      return rows.map(([, code, name]) => [Number(code), name]);
    };
    const answered = decodeAnswer(Uint8Array.of(6, 0, 1, 1));
    expect(answered).toMatchObject({ outcome: 'success' });
    for (const [code, name] of cells('| outcome |')) {
      expect(decodeAnswer(Uint8Array.of(6, 0, 1, Number(code)))).toMatchObject({ outcome: name });
    }
    for (const [code, name] of cells('| operator |')) {
      const numbers = name === 'within' ? [1, 0, 0, 0, 0, 0, 0, 0, 0] : [1, 0, 0, 0, 0];
      const operand = name === 'within' || name === 'upTo' || name === 'from' ? numbers : [];
      const decoded = decodeRequest(Uint8Array.of(1, Number(code), ...operand));
      expect(decoded).toMatchObject({ ok: true, request: { selection: { operator: name } } });
    }
    expect(cells('| outcome |')).toHaveLength(9);
    expect(cells('| operator |')).toHaveLength(6);
  });
});

/** Rows `| name | type | unit… | not known | …` of the table in the section with this heading. */
function rowsUnder(heading: string): string[][] {
  const section = text.split(/^## /mu).find((part) => part.includes(heading)) ?? '';
  return [...section.matchAll(/^\| (\w+) \| (\w+) \|(.*)$/gmu)].map(
    ([, name = '', type = '', rest = '']) => [
      name,
      type,
      ...rest.split('|').map((cell) => cell.trim()),
    ],
  );
}

describe.each([
  ['4. Reading', profile.READING_FIELDS],
  ['5. Capabilities', profile.CAPABILITIES_FIELDS],
])('table under %s', (heading, fields: readonly Field[]) => {
  const rows = rowsUnder(heading).filter(([name]) => name !== 'field');

  test('lists the declared fields, in order, with their types', () => {
    expect(rows.map(([name, type]) => [name, type])).toEqual(
      fields.map(({ name, type }) => [name, type]),
    );
  });

  test('gives unit, counts, not-known values, bits and choices as declared', () => {
    for (const [position, field] of fields.entries()) {
      const [, , unit = '', notKnown = '', meaning = ''] = rows[position] ?? [];
      if (field.type === 'flags8') {
        for (const [bit, name] of field.bits.entries()) {
          expect(meaning).toMatch(new RegExp(`\\b${bit} ${name}\\b`, 'u'));
        }
      } else if (field.type === 'choice8') {
        for (const [value, name] of field.choices.entries()) {
          expect(meaning).toContain(`${value} ${name}`);
        }
      } else {
        expect(unit.split(', ')[0]).toBe(field.unit);
        expect(Number(unit.split(', ')[1] ?? 1)).toBe(field.countsPerUnit ?? 1);
        expect(notKnown).toBe(field.notKnown === undefined ? '' : String(field.notKnown));
      }
    }
  });
});

test('UUIDs and lengths in the document are the declared ones', () => {
  const own = [
    profile.SERVICE_UUID,
    profile.READING_UUID,
    profile.CAPABILITIES_UUID,
    profile.CONTROL_UUID,
    profile.STORED_READINGS_UUID,
  ];
  expect(
    [...text.matchAll(/`([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})`/gu)].map((m) => m[1]),
  ).toEqual(own);
  const assigned = [
    profile.BATTERY_SERVICE_UUID,
    profile.BATTERY_LEVEL_UUID,
    profile.RECORD_ACCESS_UUID,
    profile.ENVIRONMENTAL_SENSING_UUID,
    profile.STANDARD_PRESSURE_UUID,
    profile.STANDARD_TEMPERATURE_UUID,
    profile.DEVICE_INFORMATION_UUID,
    ...Object.values(profile.DEVICE_INFORMATION),
  ];
  for (const uuid of assigned) expect(text).toContain(`\`${uuid}\``);
  expect(text).toContain(`${encodedLength(profile.READING_FIELDS)} bytes |`);
  expect(text).toContain(`${encodedLength(profile.CAPABILITIES_FIELDS)} bytes |`);
  expect(encodedLength(profile.READING_FIELDS)).toBeLessThanOrEqual(20);
});
