/** When a typed number was read: by a clock that may be set, and goes on while the laptop sleeps. */
import { expect, test } from 'vitest';
import { Intake } from '../../../server/sources/intake.ts';
import { TypedInSource } from '../../../server/sources/typed-in/typed-in-source.ts';
import { SourceEar } from '../../support/source-ear.ts';

/** Types 100 Pa at each of these moments of the wall clock; when the readings are then placed, s. */
function placed(wallMs: readonly number[]): (number | null)[] {
  let nowMs = wallMs[0] ?? 0;
  const source = new TypedInSource(() => nowMs);
  const ear = new SourceEar();
  source.start(ear);
  for (const ms of wallMs) {
    nowMs = ms;
    source.type({ pressurePa: 100, temperatureC: null });
  }
  const intake = new Intake(0);
  return ear.readings.map(({ bytes, arrivedMs }) => {
    const taken = intake.take(bytes, arrivedMs / 1000);
    return taken.kind === 'reading' ? taken.reading.elapsedS : null;
  });
}

test('a reading stands at the moment at which it was typed', () => {
  expect(placed([1_700_000_000_000, 1_700_000_090_250, 1_700_003_600_000])).toEqual([
    0, 90.25, 3600,
  ]);
});

test('a clock that is set back holds time up, and never turns it round', () => {
  expect(placed([5_000_000, 5_060_000, 1_400_000, 1_460_000])).toEqual([0, 60, 60, 120]);
});

test('two numbers at the same moment are two readings', () => {
  expect(placed([1000, 1000])).toEqual([0, 0]);
});

test('a recording longer than the sensor’s counter goes on', () => {
  const wallS = Array.from({ length: 30 }, (_, day) => day * 2 * 86_400);
  expect(placed(wallS.map((s) => s * 1000))).toEqual(wallS);
});
