/** A peer may send anything: what can't be read is refused, and what can is sane. */
import { expect, test } from 'vitest';
import {
  CAPABILITIES_FIELDS,
  IDENTIFY_FIELDS,
  READING_FIELDS,
  SET_INTERVAL_FIELDS,
  STANDARD_PRESSURE_FIELDS,
  STANDARD_TEMPERATURE_FIELDS,
} from '../../../protocol/profile.ts';
import { decode, encodedLength } from '../../../protocol/profile-codec.ts';
import { decodeAnswer, decodeRequest } from '../../../protocol/record-access.ts';
import { readingSchema } from '../../../protocol/reading.ts';
import { Intake } from '../../../server/sources/intake.ts';
import { Backfill } from '../../../server/sources/radio/backfill.ts';
import { readingBytes } from '../../support/reading-bytes.ts';
import { seeded } from '../../support/invented-curves.ts';

const PAYLOADS = 250_000;
const LONGEST = 48;

/** Bytes by chance, or those of a sound reading with some of them changed or cut off. */
function payload(random: () => number, step: number): Uint8Array {
  const below = (limit: number): number => Math.floor(random() * limit);
  if (random() < 0.5) {
    return Uint8Array.from({ length: below(LONGEST) }, () => below(256));
  }
  const boot = random() < 0.02 ? below(0x10000) : below(3);
  const sequence = random() < 0.1 ? below(2 ** 32) : step % 2 ** 32;
  const uptimeMs = random() < 0.1 ? below(2 ** 32) : (step * 100) % 2 ** 32;
  const bytes = readingBytes({ boot, sequence, uptimeMs });
  for (let changes = below(4); changes > 0; changes -= 1) bytes[below(bytes.length)] = below(256);
  return random() < 0.2 ? bytes.subarray(0, below(bytes.length)) : bytes;
}

test(`${PAYLOADS} payloads as readings, heard and fetched, are refused or sane`, () => {
  const random = seeded(2026);
  const counts = { reading: 0, duplicate: 0, unplaceable: 0, unreadable: 0 };
  const asked: { from: number; to: number }[] = [];
  const backfill = new Backfill((_, stretch) => asked.push(stretch));
  backfill.connected('a', 3600);
  let intake = new Intake(0);
  let bytes = readingBytes();
  for (let step = 0; step < PAYLOADS; step += 1) {
    if (step % 50_000 === 0) intake = new Intake(0);
    // Now and then the same once more.
    if (random() >= 0.05) bytes = payload(random, step);
    const fetched = random() < 0.3;
    const taken = intake.take(bytes, step / 10, fetched);
    counts[taken.kind] += 1;
    if (taken.kind === 'unreadable' && bytes.length >= encodedLength(READING_FIELDS)) {
      throw new Error(`a whole reading was refused: ${Buffer.from(bytes).toString('hex')}`);
    }
    // The schema is slow: each twentieth.
    if (taken.kind === 'reading' && step % 20 === 0) {
      const { uptimeMs, arrivedS, ...fact } = taken.reading;
      readingSchema.parse({ index: 1, ...fact });
      expect([uptimeMs, arrivedS].every(Number.isFinite)).toBe(true);
    }
    backfill.reading('a', bytes, fetched);
    if (step % 1000 === 0) {
      backfill.ended('a', asked.at(-1)?.from ?? 0, true);
      const { missed } = backfill.missing('a');
      expect(Number.isSafeInteger(missed) && missed >= 0).toBe(true);
    }
  }
  for (const { from, to } of asked) {
    expect(from >= 0 && to >= from && to <= 0xffff_ffff && Number.isInteger(from + to)).toBe(true);
  }
  // Each way out has been taken many times, or this test shows little.
  for (const times of Object.values(counts)) expect(times).toBeGreaterThan(1000);
});

test('100000 payloads as any other characteristic are refused or sane', () => {
  const random = seeded(7);
  for (let step = 0; step < 100_000; step += 1) {
    const bytes = payload(random, step);
    for (const fields of [
      CAPABILITIES_FIELDS,
      SET_INTERVAL_FIELDS,
      IDENTIFY_FIELDS,
      STANDARD_PRESSURE_FIELDS,
      STANDARD_TEMPERATURE_FIELDS,
    ]) {
      const decoded = decode(fields, bytes);
      if (!decoded.ok) continue;
      const numbers = Object.values(decoded.values).filter((value) => typeof value === 'number');
      if (!numbers.every(Number.isFinite)) throw new Error(`${step}: not a number`);
    }
    const request = decodeRequest(bytes);
    if (!request.ok) expect(request.outcome).not.toBe('success');
    const answer = decodeAnswer(bytes);
    if (answer?.opCode === 'countResponse') expect(answer.count).toBeGreaterThanOrEqual(0);
  }
});
