/** A writer that says nothing is one that hangs, if it owes an answer; and what waits for it is bounded. */
import { beforeEach, expect, test } from 'vitest';
import { WriterSilence } from '../../../server/record/writer-silence.ts';

let nowMs = 0;
const WALL_MS = 1_790_000_000_000;
const silence = () =>
  new WriterSilence({ wallMs: () => WALL_MS + nowMs, steadyMs: () => nowMs }, 10);
beforeEach(() => (nowMs = 0));

test('it stalls from the first fact on that it does not answer', () => {
  const writer = silence();
  nowMs = 60_000;
  // Nothing was asked of it.
  expect(writer.stalled()).toBeNull();
  writer.mayHandOver(2);
  nowMs += 4000;
  writer.mayHandOver(3);
  expect(writer.stalled()).toBeNull();
  nowMs += 1000;
  expect(writer.stalled()).toEqual({ sinceMs: WALL_MS + 60_000, waiting: 5, refused: 0 });
});

test('a sign of life begins the wait anew; with the last answer there is none', () => {
  const writer = silence();
  writer.mayHandOver(2);
  writer.mayHandOver(0);
  nowMs = 4900;
  writer.heard(2, false);
  nowMs = 9800;
  expect(writer.stalled()).toBeNull();
  nowMs = 9900;
  expect(writer.stalled()).toMatchObject({ sinceMs: WALL_MS + 4900, waiting: 0 });
  writer.heard(0, true);
  nowMs = 90_000;
  expect(writer.stalled()).toBeNull();
});

test('what it can’t hear of is bounded: the newest are refused, and counted until all is written', () => {
  const writer = silence();
  expect([writer.mayHandOver(6), writer.mayHandOver(4)]).toEqual([true, true]);
  expect(writer.mayHandOver(1)).toBe(false);
  // What somebody did is taken all the same.
  expect(writer.mayHandOver(0)).toBe(true);
  nowMs = 6000;
  expect(writer.stalled()).toMatchObject({ waiting: 10, refused: 1 });
  writer.heard(6, false);
  expect(writer.mayHandOver(1)).toBe(true);
  nowMs = 11_000;
  expect(writer.stalled()).toMatchObject({ waiting: 5, refused: 1 });
  writer.heard(5, true);
  writer.mayHandOver(1);
  nowMs = 19_000;
  expect(writer.stalled()).toMatchObject({ waiting: 1, refused: 0 });
});
