/** While a recording's chain is reckoned anew, others ask for it too, and what is recorded meanwhile is seen by all. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { Recorder } from '../../server/record/recorder.ts';
import { invented } from '../faults/invented-reading.ts';

let folder = '';
let recorder: Recorder;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'verified-'));
  recorder = await Recorder.open(folder, { durable: () => undefined, held: () => undefined });
});
afterEach(async () => {
  await recorder.close();
  rmSync(folder, { recursive: true, force: true });
});

test('several at once, and readings that come meanwhile', async () => {
  const id = recorder.begin('sensor', 1000, '');
  // Links enough that reckoning them takes several turns.
  for (let commit = 0; commit < 300; commit += 1) {
    recorder.readings(
      id,
      Array.from({ length: 40 }, (_, at) => invented(1 + commit * 40 + at)),
    );
    await recorder.settled();
  }
  let isDone = false;
  const all = Promise.all([recorder.verified(id), recorder.verified(id), recorder.verified(id)]);
  void all.then(() => (isDone = true));
  await new Promise((resolve) => setTimeout(resolve, 0));
  recorder.readings(id, [invented(12_001)]);
  const next = recorder.begin('typed_in', 2000, '');
  await recorder.settled();
  expect(isDone).toBe(false);
  expect(recorder.reader.lastIndex(id)).toBe(12_001);
  expect(recorder.reader.recording(next)?.origin).toBe('typed_in');
  for (const { broken, links } of await all) {
    expect(broken).toBeNull();
    expect(links).toBeGreaterThanOrEqual(300);
  }
});
