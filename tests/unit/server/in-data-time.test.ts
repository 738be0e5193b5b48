import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Reading } from '../../../protocol/reading.ts';
import { inDataTime } from '../../../server/http/in-data-time.ts';

function reading(index: number, elapsedS: number): Reading {
  return {
    index,
    channel: 0,
    boot: 1,
    sequence: index,
    elapsedS,
    pressurePa: 100,
    temperatureC: null,
    condition: 'ok',
  };
}

test('brings whatever order the record has into that of data time, and loses nothing', () => {
  const times = fc.array(fc.array(fc.integer({ min: 0, max: 50 }), { maxLength: 12 }), {
    maxLength: 8,
  });
  fc.assert(
    fc.property(times, (parts) => {
      let index = 0;
      const chunks = parts.map((part) => part.map((elapsedS) => reading((index += 1), elapsedS)));
      const ordered = [...inDataTime(() => chunks)].flat();
      const expected = chunks.flat().sort((a, b) => a.elapsedS - b.elapsedS || a.index - b.index);
      expect(ordered).toEqual(expected);
    }),
    { numRuns: 400, seed: 8 },
  );
});
