import { expect, test } from 'vitest';
import { resumePoints } from '../../../server/sources/resume-point.ts';

const stamp = (sequence: number, channel = 0, boot = 1) => ({
  channel,
  boot,
  sequence,
  uptimeMs: sequence * 100,
  elapsedS: sequence / 10 + boot,
});

test('each sensor goes on from its latest boot, with what was recorded of it', () => {
  const stamps = [stamp(3), stamp(1), stamp(2), stamp(7), stamp(900, 1, 1), stamp(4, 1, 2000)];
  const points = resumePoints(stamps);
  expect(points.get(0)).toEqual({
    boot: 1,
    numbers: [
      { from: 1, to: 3 },
      { from: 7, to: 7 },
    ],
    lastNumber: 7,
    lastUptimeMs: 700,
    lastElapsedS: 1.7,
  });
  expect(points.get(1)).toMatchObject({ boot: 2000, numbers: [{ from: 4, to: 4 }] });
});

test('what was recorded before the readings that are looked at is not asked for again', () => {
  // Fetched ones came last; those heard live before them are told by their highest number alone.
  const stamps = [stamp(50), stamp(51), stamp(52)];
  const [point] = resumePoints(stamps, [
    { channel: 0, boot: 1, highest: 400 },
    { channel: 0, boot: 9, highest: 7000 },
  ]).values();
  expect(point?.numbers).toEqual([{ from: 50, to: 400 }]);
});

test('numbers that go on over the wrap of the counter are one stretch', () => {
  const stamps = [2 ** 32 - 1, 2 ** 32 - 2, 0, 1].map((sequence, i) => ({
    ...stamp(sequence),
    elapsedS: [2, 1, 3, 4][i] ?? 0,
  }));
  expect(resumePoints(stamps).get(0)?.numbers).toEqual([{ from: -2, to: 1 }]);
});

test('a gap from before the sensor set its clock anew is not asked for: its times would be wrong', () => {
  const stamps = [
    stamp(1),
    stamp(2),
    stamp(9),
    { ...stamp(20), uptimeMs: 5 },
    { ...stamp(24), uptimeMs: 405 },
  ];
  expect(resumePoints(stamps).get(0)?.numbers).toEqual([
    { from: 1, to: 20 },
    { from: 24, to: 24 },
  ]);
});
