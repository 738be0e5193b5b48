/** A report on so many readings that they are judged beside the bridge, which goes on answering meanwhile. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { ReceivedReading } from '../../protocol/reading.ts';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { judge } from '../../web/analysis/judge.ts';
import { gridTime } from '../../web/analysis/readings/judging-grid.ts';
import { english } from '../../web/words/english.ts';
import { historyOf } from '../support/invented-curves.ts';
import { runBridge } from '../support/running-bridge.ts';

const COUNT = 24_000;
const ISOLATED_S = 21_000;

/** Down from the air, and a hold that rises by what is a leak. */
function reading(elapsedS: number): ReceivedReading {
  const heldS = Math.max(0, elapsedS - ISOLATED_S);
  const pressurePa = 30 + 1e5 * Math.exp(-elapsedS / 600) + heldS / 10;
  const when = { uptimeMs: elapsedS * 1000, arrivedS: elapsedS, elapsedS };
  return {
    channel: 0,
    boot: 1,
    sequence: elapsedS,
    ...when,
    pressurePa,
    temperatureC: 20,
    condition: 'ok',
  };
}

test('it says what the judge says of the same readings, and nobody waits for it', async () => {
  const readings = Array.from({ length: COUNT }, (_, second) => reading(second));
  const dataFolder = mkdtempSync(join(tmpdir(), 'long-report-'));
  const recorder = await Recorder.open(dataFolder, { durable: () => undefined, held: () => {} });
  const id = recorder.begin('sensor', 0, '');
  recorder.readings(id, readings);
  const mark = await recorder.mark(
    id,
    { kind: 'isolated', elapsedS: ISOLATED_S, text: '' },
    'hand',
  );
  recorder.end(id, COUNT * 1000);
  await recorder.close();

  const bridge = await runBridge({ dataFolder });
  const ask = async (path: string) => (await fetch(new URL(path, bridge.url))).text();
  const report = ask(`api/recordings/${id}/report`);
  let answered = 0;
  const isThere = new AbortController();
  const asking = (async () => {
    while (!isThere.signal.aborted) {
      await ask('api/sensor-labels');
      answered += 1;
    }
  })();
  const page = await report;
  isThere.abort();
  await asking;
  await bridge.remove();

  const { rise } = judge(historyOf(readings), [mark], DEFAULT_SHEET, gridTime(COUNT - 1));
  expect(rise?.verdict).toBe('leak');
  expect(page).toContain(`<strong>${english.verdict.names.leak}`);
  expect(page).toContain(`<td>${COUNT}: `);
  // Judged by the bridge itself, it would have held up all but the first few of them.
  expect(answered).toBeGreaterThan(20);
});
