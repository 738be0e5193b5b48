import { describe, expect, test } from 'vitest';
import { Timeline } from '../../../server/sources/timeline.ts';

const stamp = (sequence: number, uptimeMs: number, boot = 1) => ({ boot, sequence, uptimeMs });

describe('a sensor’s time axis', () => {
  test('follows the sensor’s clock, however late the readings arrive', () => {
    const timeline = new Timeline();
    expect(timeline.place(stamp(0, 5000), 0)).toBe(0);
    expect(timeline.place(stamp(1, 6000), 3.7)).toBe(1);
    expect(timeline.place(stamp(2, 7000), 3.8)).toBe(2);
  });

  test('takes a repeated reading once, also out of order', () => {
    const timeline = new Timeline();
    timeline.place(stamp(0, 0), 0);
    timeline.place(stamp(2, 2000), 2);
    expect(timeline.place(stamp(1, 1000), 2.1)).toBe(1);
    expect(timeline.place(stamp(2, 2000), 2.2)).toBeNull();
    expect(timeline.place(stamp(3, 3000), 3)).toBe(3);
  });

  test('goes on across the wrap of the uptime, with a straggler from before it', () => {
    const timeline = new Timeline();
    const wrap = 2 ** 32;
    timeline.place(stamp(0, wrap - 2000), 0);
    expect(timeline.place(stamp(2, 500), 2.5)).toBe(2.5);
    expect(timeline.place(stamp(1, wrap - 500), 2.6)).toBe(1.5);
    expect(timeline.place(stamp(3, 1500), 3.5)).toBe(3.5);
  });

  test('anchors a restarted sensor at its arrival, though number and clock begin anew', () => {
    const timeline = new Timeline();
    timeline.place(stamp(0, 0), 0);
    timeline.place(stamp(1, 1000), 1);
    expect(timeline.place(stamp(0, 200, 2), 60)).toBe(60);
    expect(timeline.place(stamp(1, 1200, 2), 61.3)).toBe(61);
  });

  test('a number that comes again a wrap later is a new reading', () => {
    const timeline = new Timeline();
    timeline.place(stamp(5, 0), 0);
    for (let sequence = 6; sequence < 700; sequence += 1)
      timeline.place(stamp(sequence, sequence), 0);
    expect(timeline.place(stamp(5, 700), 1)).toBe(0.7);
  });
});
