/** The computer's clocks are set, or stand still while it sleeps: what is recorded lies where the sensor measured it. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { Recorder } from '../../server/record/recorder.ts';
import { Feed, type Unfinished } from '../../server/sources/feed.ts';
import { SleepWatch } from '../../server/sources/radio/sleep-watch.ts';
import { readingBytes } from '../support/reading-bytes.ts';

const HOUR_S = 3600;
const START_MS = 1_700_000_000_000;

let folder = '';
let recorder: Recorder;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'clocks-'));
  recorder = await Recorder.open(folder, { durable: () => undefined, held: () => undefined });
});
afterEach(async () => {
  await recorder.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A bridge with the three clocks in hand: the wall's, the computer's steady one, the sensor's. */
function bridge(unfinished: Unfinished | null = null) {
  const clocks = { wallS: START_MS / 1000, steadyS: 50, sensorS: 10 };
  const watch = new SleepWatch(
    () => clocks.wallS * 1000,
    () => clocks.steadyS * 1000,
  );
  const feed = new Feed({
    ledger: recorder,
    origin: 'sensor',
    title: '',
    marksMadeBy: 'hand',
    wallClock: () => clocks.wallS * 1000,
    onState: () => undefined,
    unfinished,
  });
  let toldMs = 0;
  const hear = (fetchedAtS: number | null = null) => {
    const allMs = watch.sleptMs();
    const measuredS = fetchedAtS ?? clocks.sensorS;
    feed.reading({
      sensorId: 'a',
      arrivedMs: clocks.steadyS * 1000 + allMs,
      bytes: readingBytes({ sequence: Math.round(measuredS), uptimeMs: measuredS * 1000 }),
      fetched: fetchedAtS !== null,
      sleptMs: allMs - toldMs,
    });
    toldMs = allMs;
  };
  const pass = (lengthS: number, still: Partial<typeof clocks> = {}) => {
    clocks.wallS += lengthS;
    clocks.steadyS += still.steadyS ?? lengthS;
    clocks.sensorS += lengthS;
  };
  const hearFor = (lengthS: number) => {
    for (let second = 0; second < lengthS; second += 1) {
      hear();
      pass(1);
    }
  };
  return { clocks, feed, hear, hearFor, pass };
}

const elapsedOf = (id: number) => recorder.reader.readingsAfter(id, 0, 5000).elapsedS;
const seconds = (from: number, to: number) =>
  Array.from({ length: to - from }, (_, second) => from + second);
/** To a millisecond. */
const rounded = (values: readonly number[]) =>
  values.map((value) => Math.round(value * 1000) / 1000);

test.each([HOUR_S, -HOUR_S, 26 * HOUR_S, -26 * HOUR_S])(
  'the wall clock is set by %i s amid a recording: the time axis goes on, and nothing is noted',
  async (setByS) => {
    const { clocks, feed, hearFor } = bridge();
    hearFor(600);
    clocks.wallS += setByS;
    hearFor(600);
    const id = feed.finish() ?? 0;
    await recorder.settled();
    expect(rounded(elapsedOf(id))).toEqual(seconds(0, 1200));
    expect(recorder.reader.marks(id)).toEqual([]);
    expect(recorder.reader.recording(id)?.startedAtMs).toBe(START_MS);
    // The next one is the later one, whatever the clock says.
    hearFor(3);
    await recorder.settled();
    expect(feed.recordingId).toBe(id + 1);
    expect(recorder.reader.recordings(1)[0]).toMatchObject({
      id: id + 1,
      startedAtMs: START_MS + (1200 + setByS) * 1000,
    });
  },
);

test.each([
  ['stands still', 0],
  ['goes on', HOUR_S],
])(
  'an hour of sleep in which the steady clock %s: a gap as long, and what was missed fills it',
  async (_how, steadyS) => {
    const { clocks, feed, hear, hearFor, pass } = bridge();
    hearFor(300);
    const sleptAtS = clocks.sensorS;
    pass(HOUR_S, { steadyS });
    hearFor(300);
    const id = feed.recordingId ?? 0;
    await recorder.settled();
    expect(rounded(elapsedOf(id))).toEqual([...seconds(0, 300), ...seconds(3900, 4200)]);
    const noted = recorder.reader.marks(id);
    if (steadyS === 0)
      expect(noted).toMatchObject([
        { kind: 'note', madeBy: 'bridge', elapsedS: 299, text: expect.stringContaining('60 min') },
      ]);
    // A steady clock that goes on tells no sleep from a sensor out of reach: the curve shows the gap alike.
    else expect(noted).toEqual([]);
    for (let second = 0; second < HOUR_S; second += 1) hear(sleptAtS + second);
    await recorder.settled();
    const all = rounded(elapsedOf(id)).sort((a, b) => a - b);
    expect(all).toEqual(seconds(0, 4200));
  },
);

test('set back while the bridge was off: what comes is never laid over what is there', async () => {
  const first = bridge();
  first.hearFor(600);
  const id = first.feed.recordingId ?? 0;
  await recorder.settled();
  const found = recorder.reader.recording(id);
  const again = bridge({
    recordingId: id,
    startedAtMs: START_MS,
    lastElapsedS: recorder.reader.lastElapsedS(id) ?? 0,
    sensors: found?.sensors ?? [],
  });
  again.clocks.wallS -= HOUR_S;
  again.clocks.sensorS += 700;
  again.hearFor(10);
  await recorder.settled();
  const elapsed = elapsedOf(id);
  expect(elapsed).toHaveLength(610);
  expect(Math.min(...elapsed.slice(600))).toBeGreaterThanOrEqual(599);
});
