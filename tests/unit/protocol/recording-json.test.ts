/** A recording as one JSON file, in parts. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { ReceivedColumns } from '../../../protocol/reading.ts';
import type { Recording } from '../../../protocol/recording.ts';
import { recordingJsonParts, recordingJsonSchema } from '../../../protocol/recording-json.ts';
import { UNBROKEN } from '../../support/any-verified.ts';

const recording: Recording = {
  id: 7,
  origin: 'sensor',
  startedAtMs: 0,
  title: '',
  sensors: [],
  takenFrom: null,
  open: false,
};
const facts = {
  softwareVersion: '9.8.7',
  recording,
  marks: [{ id: 1, kind: 'note', elapsedS: 2, text: '"\\\u2028]}', madeBy: 'hand' }],
  sheet: [{ elapsedS: 1, fields: { site: 'Quay' } }],
  takenBack: [],
  seenAlerts: [],
  verified: UNBROKEN,
} as const;

function chunkOf(fromIndex: number, pressuresPa: readonly (number | null)[]): ReceivedColumns {
  const each = <T>(value: (index: number) => T) =>
    pressuresPa.map((_, at) => value(fromIndex + at));
  return {
    index: each((index) => index),
    channel: each(() => 0),
    boot: each(() => 1),
    sequence: each((index) => index - 1),
    elapsedS: each((index) => (index - 1) / 10),
    pressurePa: [...pressuresPa],
    temperatureC: each(() => null),
    condition: pressuresPa.map((pa) => (pa === null ? 'over_range' : 'ok')),
    uptimeMs: each((index) => 100 * index),
    arrivedS: each((index) => index / 10 + 0.013),
  };
}

async function written(chunks: readonly ReceivedColumns[]): Promise<unknown> {
  const parts: string[] = [];
  for await (const part of recordingJsonParts(facts, chunks)) parts.push(part);
  return JSON.parse(parts.join(''));
}

test('has the facts, and each number to its last digit, however the readings are cut', async () => {
  const pressurePa = fc.option(fc.double({ min: 0, max: 1e6, noNaN: true }));
  const cut = fc.array(fc.array(pressurePa, { maxLength: 5 }), { maxLength: 5 });
  await fc.assert(
    fc.asyncProperty(cut, async (pressures) => {
      let next = 1;
      const chunks = pressures.map((part) => {
        const chunk = chunkOf(next, part);
        next += part.length;
        return chunk;
      });
      const { format, version, readings, ...rest } = recordingJsonSchema.parse(
        await written(chunks),
      );
      expect({ format, version }).toEqual({ format: 'ebbline-recording', version: 1 });
      expect(rest).toEqual(facts);
      // JSON knows one zero.
      const all = pressures.flat().map((pa) => (pa === null ? null : pa + 0));
      expect(readings).toEqual(chunkOf(1, all));
    }),
  );
});

test('columns of unequal length are no recording', async () => {
  const chunk = chunkOf(1, [1, 2]);
  const torn = await written([{ ...chunk, uptimeMs: [1] }]);
  expect(recordingJsonSchema.safeParse(torn).success).toBe(false);
});
