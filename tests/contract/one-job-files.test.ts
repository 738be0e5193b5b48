/** Files of one job of a recording that has two: nothing of the other one, which is another customer's, is in them. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { recordingDetailSchema } from '../../protocol/api.ts';
import { jobsIn, WHOLE_JOB } from '../../protocol/job.ts';
import { markSchema } from '../../protocol/mark.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { recordingJsonSchema } from '../../protocol/recording-json.ts';
import { parseReadingsCsv } from '../../protocol/readings-csv.ts';
import { verifiedSchema } from '../../protocol/verified.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { english } from '../../web/words/english.ts';
import { examinePdf, lettersOf } from '../support/poppler.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';
import { NOTE, recordJob } from '../support/written-job.ts';

const BEGINS_S = 600;
const FIRST_SITE = 'Quay 4';
const SECOND_SITE = 'Mill Lane 9';

let bridge: RunningBridge;
let id: number;
let second: number;

beforeAll(async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'one-job-'));
  const recorder = await Recorder.open(dataFolder, { durable: () => {}, held: () => {} });
  id = await recordJob(recorder, { seed: 34, origin: 'sensor', sensors: 2, every: 10 });
  const begin = { kind: 'job_begun', elapsedS: BEGINS_S, text: '' } as const;
  await recorder.mark(id, { kind: 'note', elapsedS: 700, text: 'second job' }, 'hand');
  await recorder.close();
  bridge = await runBridge({ dataFolder });
  second = markSchema.parse(await (await post('marks', begin)).json()).id;
  await post('sheet', { elapsedS: 650, fields: { site: SECOND_SITE } });
  await post('sign-offs', { beginMark: second, fromS: BEGINS_S, name: 'B. Second' });
});
afterAll(() => bridge.remove());

const get = (path: string) => fetch(new URL(`api/recordings/${id}/${path}`, bridge.url));

function post(path: string, body: unknown): Promise<Response> {
  return fetch(new URL(`api/recordings/${id}/${path}`, bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

async function readIn(text: string, type: string) {
  const headers = { 'content-type': type };
  const url = new URL('api/imports?name=job', bridge.url);
  const answer = await fetch(url, { method: 'POST', headers, body: text });
  const { id: there } = recordingSchema.parse(await answer.json());
  const found = await fetch(new URL(`api/recordings/${there}`, bridge.url));
  return recordingDetailSchema.parse(await found.json());
}

const jsonOf = async (query: string) =>
  recordingJsonSchema.parse(await (await get(`recording.json${query}`)).json());

describe('JSON', () => {
  test('of the two jobs together is what the recording has, and each is without the other', async () => {
    const whole = await jsonOf('');
    const first = await jsonOf('?job=0');
    const later = await jsonOf(`?job=${second}`);
    expect(whole.job).toBeNull();
    expect(whole.verified?.broken).toBeNull();
    expect(first.job).toEqual({ beginMark: 0, fromS: 0, untilS: BEGINS_S });
    expect(later.job).toEqual({ beginMark: second, fromS: BEGINS_S, untilS: null });
    expect([first.verified, later.verified]).toEqual([null, null]);
    expect(Math.max(...first.readings.elapsedS)).toBeLessThan(BEGINS_S);
    expect(Math.min(...later.readings.elapsedS)).toBeGreaterThanOrEqual(BEGINS_S);
    const sorted = (all: readonly number[]) => [...all].sort((a, b) => a - b);
    for (const column of ['index', 'elapsedS', 'arrivedS'] as const) {
      const both = [...first.readings[column], ...later.readings[column]];
      expect(sorted(both)).toEqual(sorted(whole.readings[column]));
    }
    expect(JSON.stringify(later)).not.toContain(FIRST_SITE);
    expect(later.marks.map(({ text }) => text)).not.toContain(NOTE);
    expect(later.marksTakenBack).toEqual([]);
    expect(later.takenBack).toEqual([]);
    expect(later.seenAlerts).toEqual([]);
    expect(later.signOffs.map(({ name }) => name)).toEqual(['B. Second']);
    expect(JSON.stringify(first)).not.toMatch(/Mill Lane|second job|B\. Second/u);
    expect(first.marksTakenBack).toHaveLength(1);
    expect(first.takenBack).toHaveLength(1);
  });

  test('of the second is a recording with one job, signed as it was, that nothing says to be unaltered', async () => {
    const text = await (await get(`recording.json?job=${second}`)).text();
    const { marks, recording, signOffs } = await readIn(text, 'application/json');
    expect(jobsIn(marks)).toEqual([WHOLE_JOB]);
    expect(signOffs).toMatchObject([{ beginMark: 0, name: 'B. Second' }]);
    expect(recording.takenFrom).toMatchObject({ held: false, hash: '' });
  });
});

test('plain CSV has the readings and events of the job alone', async () => {
  const rows = async (query: string) => parseReadingsCsv(await (await get(query)).text());
  const [whole, first, later] = await Promise.all(
    ['', '&job=0', `&job=${second}`].map((job) => rows(`readings.csv?channel=0${job}`)),
  );
  expect(later?.every(({ elapsedS }) => elapsedS >= BEGINS_S)).toBe(true);
  expect([...(first ?? []), ...(later ?? [])].map((row) => ({ ...row, event: null }))).toEqual(
    whole?.map((row) => ({ ...row, event: null })),
  );
  expect(first?.length).toBeGreaterThan(10);
  const events = later?.filter(({ event }) => event !== null).map(({ event }) => event);
  expect(events).not.toContain('pump_on');
});

test('full CSV has nothing of the other job, and becomes a recording with one', async () => {
  const text = await (await get(`readings.csv?variant=full&job=${second}`)).text();
  expect(text).toContain('second job');
  expect(text).not.toContain('quoted');
  const { marks, readingCount, takenBack } = await readIn(text, 'text/csv');
  expect(jobsIn(marks)).toEqual([WHOLE_JOB]);
  expect(marks.map((mark) => mark.text)).toContain('second job');
  const { index } = (await jsonOf(`?job=${second}`)).readings;
  expect(text.match(/^reading,/gmu)).toHaveLength(index.length);
  // Readings keep their numbers.
  expect(readingCount).toBe(index.at(-1));
  expect(takenBack).toEqual([]);
});

test('a PDF says that what it carries is of the job, and that its hash is of the whole recording', async () => {
  const answer = await get(`report.pdf?job=${second}`);
  const pdf = examinePdf(Buffer.from(await answer.arrayBuffer()));
  const json: unknown = JSON.parse(pdf.attachments.get('recording.json')?.toString() ?? '');
  expect(recordingJsonSchema.parse(json)).toEqual({
    ...(await jsonOf(`?job=${second}`)),
    softwareVersion: expect.any(String),
  });
  const { facts } = verifiedSchema.parse(await (await get('verified')).json());
  const { report: words } = english;
  const unbroken = words.integrity.unbrokenWithJob({ facts: String(facts) });
  expect(pdf.letters).toContain(lettersOf(unbroken));
  const files = 'readings-sensor-1.csv, readings-sensor-2.csv, recording.json';
  expect(pdf.letters).toContain(lettersOf(words.jobDataAttached({ files })));
});

test('names of files say the day on which the job began, and which one it is', async () => {
  const names = await Promise.all(
    [`readings.csv?job=${second}`, 'readings.csv?variant=full&job=0', 'recording.json'].map(
      async (path) => (await get(path)).headers.get('content-disposition'),
    ),
  );
  expect(names).toEqual([
    `attachment; filename="2026-11-26-17-13-11-sensor-${id}-job-${second}.csv"`,
    `attachment; filename="2026-11-26-17-03-11-sensor-${id}-job-0-full.csv"`,
    `attachment; filename="2026-11-26-17-03-11-sensor-${id}.json"`,
  ]);
});

test('a job that is not there is not found', async () => {
  for (const path of ['readings.csv?job=9999', 'recording.json?job=9999']) {
    expect((await get(path)).status).toBe(404);
  }
});
