/** Files read in by a whole bridge: what comes out is what went in, or nothing at all. */
import { mkdtempSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  apiErrorSchema,
  MOST_IMPORT_BYTES,
  recordingDetailSchema,
  recordingListSchema,
} from '../../protocol/api.ts';
import type { Mark } from '../../protocol/mark.ts';
import { readingsFromColumns } from '../../protocol/reading.ts';
import type { Reading } from '../../protocol/reading.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import type { Recording } from '../../protocol/recording.ts';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { Feed } from '../../server/sources/feed.ts';
import { RehearsalSource } from '../../server/sources/rehearsal/rehearsal-source.ts';
import { scenarioNamed } from '../../server/sources/rehearsal/scenario-named.ts';
import { History } from '../../web/analysis/readings/history.ts';
import { judge } from '../../web/analysis/judge.ts';
import { gridTime } from '../../web/analysis/readings/judging-grid.ts';
import { HandClock } from '../support/hand-clock.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';

const HEADER = 'elapsed_s,pressure_pa,event,temperature_c\n';
const SCENARIOS = ['lindens-dental-practice', 'quarry-road-bakery', 'weir-street-archive'];
/** Longer than the longest of them. */
const SIX_HOURS_MS = 6 * 3_600_000;

let bridge: RunningBridge;

beforeAll(async () => {
  bridge = await runBridge({ dataFolder: await recordOfRehearsals() });
});
afterAll(() => bridge.remove());

/** A record of whole rehearsals, made as the bridge makes one, in the time that computing takes. */
async function recordOfRehearsals(): Promise<string> {
  const dataFolder = mkdtempSync(join(tmpdir(), 'bridge-'));
  const recorder = await Recorder.open(dataFolder, { durable: () => {}, held: () => {} });
  for (const name of SCENARIOS) {
    const clock = new HandClock();
    const scenario = scenarioNamed(name);
    const source = new RehearsalSource({ scenario, seed: 3, rate: 1, helper: true, clock });
    const feed = new Feed({
      ledger: recorder,
      origin: 'rehearsal',
      title: name,
      marksMadeBy: 'rehearsal',
      wallClock: () => clock.wallMs(),
      unfinished: null,
      onState: () => {},
    });
    source.start(feed);
    clock.pass(SIX_HOURS_MS);
    await source.stop();
    feed.finish();
  }
  await recorder.close();
  return dataFolder;
}

const get = (path: string): Promise<Response> => fetch(new URL(path, bridge.url));

function send(text: string, name = 'roof.csv', type = 'text/csv'): Promise<Response> {
  return fetch(new URL(`api/imports?name=${encodeURIComponent(name)}`, bridge.url), {
    method: 'POST',
    headers: { 'content-type': type },
    body: text,
  });
}

async function readIn(text: string, name?: string): Promise<Recording> {
  const answer = await send(text, name);
  expect(answer.status).toBe(201);
  return recordingSchema.parse(await answer.json());
}

async function recordings(): Promise<readonly Recording[]> {
  return recordingListSchema.parse(await (await get('api/recordings')).json()).recordings;
}

interface Facts {
  readonly readings: readonly Reading[];
  readonly marks: readonly Mark[];
}

/** What a screen gets that follows this recording. */
async function factsOf(recordingId: number): Promise<Facts> {
  const client = new StreamClient(bridge.url);
  await client.until(() => client.heard.length > 0);
  client.send({ type: 'follow', recordingId, afterIndex: 0 });
  const readings: Reading[] = [];
  let heard = 0;
  await client.until(() => {
    for (const message of client.heard.slice(heard)) {
      if (message.type !== 'backfill') continue;
      readings.push(...readingsFromColumns(message.columns));
      if (!message.complete) client.send({ type: 'more', recordingId });
      else return true;
    }
    heard = client.heard.length;
    return false;
  });
  const marks = client.heard.flatMap((said) => (said.type === 'facts' ? said.marks : []));
  client.close();
  return { readings, marks };
}

function conclude({ readings, marks }: Facts) {
  const history = new History();
  for (const reading of readings) history.insert(reading);
  return judge(history, marks, DEFAULT_SHEET, gridTime(readings.at(-1)?.elapsedS ?? 0));
}

describe.each(SCENARIOS)('the rehearsal %s, exported and read in again', (title) => {
  test('has the same readings and comes to the same verdict', async () => {
    const original = (await recordings()).find((recording) => recording.title === title);
    const csv = await (await get(`api/recordings/${original?.id}/readings.csv`)).text();
    const imported = await readIn(csv, `${title}.csv`);
    expect(imported).toMatchObject({ origin: 'import', title: `${title}.csv`, open: false });

    const [before, after] = [await factsOf(original?.id ?? 0), await factsOf(imported.id)];
    expect(before.readings.length).toBeGreaterThan(1000);
    // To the last digit: what has been through the profile once loses nothing the second time.
    const measured = (reading: Reading) => [
      reading.pressurePa,
      reading.temperatureC,
      reading.condition,
    ];
    expect(after.readings.map(measured)).toEqual(before.readings.map(measured));
    for (const [row, reading] of after.readings.entries()) {
      const elapsedS = before.readings[row]?.elapsedS ?? Number.NaN;
      if (!(Math.abs(reading.elapsedS - elapsedS) < 0.001)) expect(reading.elapsedS).toBe(elapsedS);
    }
    expect(after.marks.every(({ madeBy }) => madeBy === 'import')).toBe(true);
    expect(after.marks.map(({ kind }) => kind)).toContain('isolated');

    const verdict = conclude(after).rise?.verdict;
    expect(verdict).toBeDefined();
    expect(verdict).toBe(conclude(before).rise?.verdict);
    expect(conclude(after)).toEqual(conclude(before));
  });
});

describe('a file', () => {
  test('keeps times to 1 ms, pressures to 1 mPa, and an empty pressure as over range', async () => {
    const { id } = await readIn(
      `${HEADER}12.3454,,,\n12.3456,80000.0004,pump_on,-40.256\n13.1,99.1234,,21\n`,
    );
    const { readings, marks } = await factsOf(id);
    expect(
      readings.map(({ elapsedS, pressurePa, temperatureC }) => [
        elapsedS,
        pressurePa,
        temperatureC,
      ]),
    ).toEqual([
      [12.345, null, null],
      [12.346, 80000, -40.26],
      [13.1, 99.123, 21],
    ]);
    expect(readings.map(({ condition }) => condition)).toEqual(['over_range', 'ok', 'ok']);
    expect(marks).toMatchObject([{ kind: 'pump_on', elapsedS: 12.346, madeBy: 'import' }]);
  });

  test('with a silence of days in it is one recording', async () => {
    const before = await recordings();
    const { id } = await readIn(`${HEADER}0,5,,\n300000.5,7,,\n`);
    expect(await recordings()).toHaveLength(before.length + 1);
    const { readings } = await factsOf(id);
    expect(readings.map(({ elapsedS }) => elapsedS)).toEqual([0, 300_000.5]);
  });

  test('longer than a batch arrives whole and in order, and again makes another recording', async () => {
    const rows = Array.from({ length: 9001 }, (_, row) => `${row / 10},${row + 1},,\n`).join('');
    const [one, two] = await Promise.all([readIn(HEADER + rows), readIn(HEADER + rows)]);
    expect(one.id).not.toBe(two.id);
    for (const { id } of [one, two]) {
      const { readings } = await factsOf(id);
      expect(readings.map(({ pressurePa }) => pressurePa)).toEqual(
        Array.from({ length: 9001 }, (_, row) => row + 1),
      );
    }
  });

  test('is named in the list as what it is, and its CSV as well', async () => {
    const { id } = await readIn(`${HEADER}0,5,,\n`, '/home/me/cellar.csv');
    expect((await recordings())[0]).toMatchObject({ id, origin: 'import', title: 'cellar.csv' });
    const csv = await get(`api/recordings/${id}/readings.csv`);
    expect(csv.headers.get('content-disposition')).toMatch(/-import-\d+\.csv"$/u);
  });
});

describe('a file that is no good leaves no trace, and the answer says why', () => {
  test.each([
    ['a word among the numbers', `${HEADER}0,5,,\n1,x,,\n`, /line 3: pressure_pa is "x"/u],
    [
      'a pressure that no reading can carry',
      `${HEADER}0,5,,\n1,1e12,,\n`,
      /line 3: .*in pascal\?/u,
    ],
    ['no readings', HEADER, /line 2: there are no readings/u],
    ['another kind of file', 'PK\u0003\u0004', /line 1: the header lacks elapsed_s/u],
    ['nothing', '', /line 1: the header lacks/u],
  ])('%s', async (_what, text, message) => {
    const before = await recordings();
    const answer = await send(text);
    expect(answer.status).toBe(400);
    const error = apiErrorSchema.parse(await answer.json());
    expect(error.code).toBe('bad_readings_file');
    expect(error.message).toMatch(message);
    expect(await recordings()).toEqual(before);
  });

  test('a fault in the last of many rows', async () => {
    const before = await recordings();
    const rows = Array.from({ length: 5000 }, (_, row) => `${row},5,,\n`).join('');
    const answer = await send(`${HEADER}${rows}1,5,,\n`);
    expect(apiErrorSchema.parse(await answer.json()).message).toMatch(/line 5002: elapsed_s goes/u);
    expect(await recordings()).toEqual(before);
  });

  test('a file that claims to be larger than the limit', async () => {
    const status = await new Promise((resolve, reject) => {
      const sent = request(
        new URL('api/imports', bridge.url),
        {
          method: 'POST',
          headers: { 'content-type': 'text/csv', 'content-length': MOST_IMPORT_BYTES + 1 },
        },
        (answer) => {
          answer.resume();
          resolve(answer.statusCode);
        },
      );
      sent.on('error', reject);
      sent.write(HEADER);
    });
    expect(status).toBe(413);
  });

  test('a body of another kind', async () => {
    expect((await send('{}', 'a.csv', 'application/json')).status).toBe(400);
    expect((await send('a', 'a.csv', 'text/plain')).status).toBe(400);
  });
});

test('no other address takes a file, nor so large a body', async () => {
  const post = (type: string, body: string) =>
    fetch(new URL('api/rehearsals', bridge.url), {
      method: 'POST',
      headers: { 'content-type': type },
      body,
    });
  expect((await post('text/csv', HEADER)).status).toBe(400);
  const large = JSON.stringify({ name: 'x'.repeat(100_000) });
  const error = apiErrorSchema.parse(await (await post('application/json', large)).json());
  expect(error.message).toMatch(/too large/u);
});

test('a file that the end of the bridge cut short is closed at the next start, and says so', async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'bridge-'));
  const recorder = await Recorder.open(dataFolder, { durable: () => {}, held: () => {} });
  const id = recorder.begin('import', Date.now(), 'half.csv');
  recorder.readings(id, [
    {
      channel: 0,
      boot: 0,
      sequence: 0,
      uptimeMs: 4000,
      arrivedS: 4,
      elapsedS: 4,
      pressurePa: 5,
      temperatureC: null,
      condition: 'ok',
    },
  ]);
  await recorder.close();
  const next = await runBridge({ dataFolder });
  const answer = await fetch(new URL(`api/recordings/${id}`, next.url));
  const { recording, marks } = recordingDetailSchema.parse(await answer.json());
  expect(recording.open).toBe(false);
  expect(marks).toMatchObject([
    { kind: 'note', elapsedS: 4, madeBy: 'import', text: expect.stringMatching(/missing/u) },
  ]);
  await next.remove();
});
