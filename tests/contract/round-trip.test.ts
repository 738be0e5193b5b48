/** What is taken out of one bridge and read in by another leads to the same conclusions, to the last digit. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { recordingDetailSchema } from '../../protocol/api.ts';
import { type Reading, readingsFromColumns } from '../../protocol/reading.ts';
import {
  isSimulated,
  isTypedIn,
  type Recording,
  recordingSchema,
} from '../../protocol/recording.ts';
import { recordingJsonSchema } from '../../protocol/recording-json.ts';
import { sheetOfSensor } from '../../protocol/sheet-of-sensor.ts';
import { RECORD_FILE } from '../../server/record/open-database.ts';
import { RecordReader } from '../../server/record/record-reader.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { Judging } from '../../web/analysis/judging.ts';
import { numbersOf } from '../../web/analysis/numbers.ts';
import { english } from '../../web/words/english.ts';
import { NOTE, recordJob, STARTED_MS, type WishedJob } from '../support/written-job.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';

const JOBS = {
  'a tight system, rehearsed': { seed: 28, origin: 'rehearsal', sensors: 1, every: 1 },
  'a wet one, rehearsed': { seed: 5, origin: 'rehearsal', sensors: 1, every: 1 },
  'a leaking one, rehearsed': { seed: 26, origin: 'rehearsal', sensors: 1, every: 1 },
  'one that was typed in': { seed: 17, origin: 'typed_in', sensors: 1, every: 60 },
  'one with two sensors': { seed: 34, origin: 'sensor', sensors: 2, every: 1 },
} as const satisfies Record<string, WishedJob>;

let here: RunningBridge;
let there: RunningBridge;
const ids = new Map<string, number>();

beforeAll(async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'round-trip-'));
  const recorder = await Recorder.open(dataFolder, { durable: () => {}, held: () => {} });
  const said = { displayStepPa: null, givenAtMs: STARTED_MS + 1 };
  await recorder.label({ sensorId: 's0', name: 'Roof', place: 'system', ...said });
  await recorder.label({ sensorId: 's1', name: 'Yard', place: 'pump', ...said });
  for (const [what, job] of Object.entries(JOBS)) ids.set(what, await recordJob(recorder, job));
  await recorder.close();
  here = await runBridge({ dataFolder });
  there = await runBridge();
});
afterAll(async () => {
  await here.remove();
  await there.remove();
});

const get = (bridge: RunningBridge, path: string) => fetch(new URL(path, bridge.url));

async function readIn(text: string, type: string, name = 'taken.json'): Promise<Recording> {
  const answer = await fetch(new URL(`api/imports?name=${name}`, there.url), {
    method: 'POST',
    headers: { 'content-type': type },
    body: text,
  });
  if (answer.status !== 201) throw new Error(await answer.text());
  return recordingSchema.parse(await answer.json());
}

async function factsOf(bridge: RunningBridge, id: number) {
  return recordingDetailSchema.parse(await (await get(bridge, `api/recordings/${id}`)).json());
}

/** As they stand in the database: past all that is tested here. */
function rowsOf({ dataFolder }: RunningBridge, id: number): unknown[] {
  const database = new Database(join(dataFolder, RECORD_FILE), { readonly: true });
  const rows = database.prepare('SELECT * FROM reading WHERE recording_id = ?').raw().all(id);
  database.close();
  return rows.map((row) => (Array.isArray(row) ? row.slice(1) : row));
}

function readingsOf({ dataFolder }: RunningBridge, id: number): Reading[] {
  const database = new Database(join(dataFolder, RECORD_FILE), { readonly: true });
  const reader = new RecordReader(database);
  const all: Reading[] = [];
  for (let after = 0; ;) {
    const readings = readingsFromColumns(reader.readingsAfter(id, after, 5000));
    if (readings.length === 0) break;
    all.push(...readings);
    after = readings.at(-1)?.index ?? 0;
  }
  database.close();
  return all;
}

/** All that is concluded, of every sensor, written out. */
async function concluded(bridge: RunningBridge, id: number, withSheet = true): Promise<string> {
  const { recording, marks, sheet } = await factsOf(bridge, id);
  const entries = withSheet ? sheet : [];
  return JSON.stringify(
    recording.sensors.map((sensor, channel) => {
      const judging = new Judging(isTypedIn(recording));
      judging.insert(readingsOf(bridge, id).filter((reading) => reading.channel === channel));
      const said = withSheet ? recording : { ...recording, sensors: [] };
      const own = sheetOfSensor(entries, said, channel);
      // Marks have other numbers there.
      const renumbered = marks.map((mark, at) => ({ ...mark, id: at + 1 }));
      const conclusions = judging.conclude(renumbered, own, entries);
      const facts = { marks: renumbered, entries };
      const numbers = conclusions && numbersOf(judging.history, conclusions, own, facts);
      return { name: sensor.name, conclusions, numbers };
    }),
  );
}

const idOf = (what: keyof typeof JOBS): number => ids.get(what) ?? 0;

test.each([
  ['a tight system, rehearsed', 'tight_dry'],
  ['a wet one, rehearsed', 'moisture'],
  ['a leaking one, rehearsed', 'leak'],
  ['one that was typed in', null],
  ['one with two sensors', null],
] as const)(
  '%s comes through JSON with all facts and the same conclusions',
  async (what, verdict) => {
    const text = await (await get(here, `api/recordings/${idOf(what)}/recording.json`)).text();
    expect(recordingJsonSchema.safeParse(JSON.parse(text)).success).toBe(true);
    const { id } = await readIn(text, 'application/json');
    const before = await concluded(here, idOf(what));
    expect(before).toContain(verdict === null ? '"rise":{' : `"verdict":"${verdict}"`);
    expect(await concluded(there, id)).toBe(before);
    expect(rowsOf(there, id)).toEqual(rowsOf(here, idOf(what)));
    const [was, is] = [await factsOf(here, idOf(what)), await factsOf(there, id)];
    const withoutIds = (facts: typeof was) => ({
      ...facts,
      recording: null,
      marks: facts.marks.map((mark) => ({ ...mark, id: 0 })),
      marksTakenBack: facts.marksTakenBack.map((mark) => ({ ...mark, id: 0 })),
    });
    expect(withoutIds(is)).toEqual(withoutIds(was));
    expect(is.marks.length).toBeGreaterThanOrEqual(3);
    expect(is.recording.sensors).toEqual(was.recording.sensors);
    expect(is.recording).toMatchObject({ origin: 'import', open: false, title: 'taken.json' });
    expect(is.recording.startedAtMs).toBe(was.recording.startedAtMs);
    expect(isSimulated(is.recording)).toBe(isSimulated(was.recording));
  },
);

test.each(['one that was typed in', 'one with two sensors'] as const)(
  '%s comes through full CSV with the same readings and marks',
  async (what) => {
    const path = `api/recordings/${idOf(what)}/readings.csv?variant=full`;
    const { id } = await readIn(await (await get(here, path)).text(), 'text/csv');
    expect(rowsOf(there, id)).toEqual(rowsOf(here, idOf(what)));
    expect(await concluded(there, id, false)).toBe(await concluded(here, idOf(what), false));
    const [was, is] = [await factsOf(here, idOf(what)), await factsOf(there, id)];
    expect(is.marks.map(({ text }) => text)).toContain(NOTE);
    expect(is.marksTakenBack).toMatchObject([{ kind: 'oil_changed', elapsedS: 40 }]);
    expect(is.takenBack).toEqual(was.takenBack);
    expect(is.recording.startedAtMs).toBe(was.recording.startedAtMs);
  },
);

test.each([
  ['a tight system, rehearsed', 'tight_dry'],
  ['a wet one, rehearsed', 'moisture'],
  ['a leaking one, rehearsed', 'leak'],
] as const)('%s comes through plain CSV with the same verdict', async (what, verdict) => {
  const text = await (await get(here, `api/recordings/${idOf(what)}/readings.csv`)).text();
  const read = await readIn(text, 'text/csv', 'plain.csv');
  const { id } = read;
  // A rehearsal can't become a job on the way.
  expect(isSimulated(read)).toBe(true);
  expect(read).toMatchObject({ origin: 'import', takenFrom: { origin: 'rehearsal', held: false } });
  const report = await (await get(there, `api/recordings/${id}/report`)).text();
  expect(report).toContain(english.report.rehearsalStamp);
  expect(report).toContain(english.report.rehearsedByFile);
  const again = await (await get(there, `api/recordings/${id}/readings.csv`)).text();
  expect(again.replaceAll(/,[^,]*$/gmu, '')).toContain(',temperature_c');
  expect(again.split('\n')[1]).toMatch(/,rehearsal$/u);
  for (const [bridge, of] of [
    [here, idOf(what)],
    [there, id],
  ] as const) {
    expect(await concluded(bridge, of, false)).toContain(`"verdict":"${verdict}"`);
  }
});

test('a rehearsal that is taken along twice is one still', async () => {
  const first = idOf('a wet one, rehearsed');
  const once = await readIn(
    await (await get(here, `api/recordings/${first}/recording.json`)).text(),
    'application/json',
  );
  for (const [path, type] of [
    ['recording.json', 'application/json'],
    ['readings.csv?variant=full', 'text/csv'],
  ] as const) {
    const again = await get(there, `api/recordings/${once.id}/${path}`);
    const twice = await readIn(await again.text(), type);
    const from = { origin: 'rehearsal', recordingId: once.id, held: false };
    expect(twice.takenFrom).toMatchObject(from);
    expect(isSimulated(twice)).toBe(true);
  }
});

test('an altered JSON is not said to be unaltered, and its sign-off stands as the file has it', async () => {
  const path = `api/recordings/${idOf('one with two sensors')}/recording.json`;
  const file = recordingJsonSchema.parse(await (await get(here, path)).json());
  file.readings.pressurePa[100] = 12.5;
  const [signed] = file.signOffs;
  const altered = { ...file, signOffs: [{ ...signed, name: 'Somebody Else' }] };
  const { id, takenFrom } = await readIn(JSON.stringify(altered), 'application/json');
  expect(file.verified?.broken).toBeNull();
  expect(takenFrom).toMatchObject({ held: false, hash: file.verified?.hash });
  const report = await (await get(there, `api/recordings/${id}/report`)).text();
  expect(report).toContain('Somebody Else');
  expect(report).toContain(english.report.notHeldThere);
  expect(report).toContain(english.report.signedThere);
  expect(report).not.toContain(english.report.heldThere);
  const own = `api/recordings/${idOf('one with two sensors')}/report`;
  expect(await (await get(here, own)).text()).not.toContain(english.report.signedThere);
});

test('names of files sort by time and say what they are', async () => {
  const id = idOf('one that was typed in');
  const names = await Promise.all(
    ['readings.csv', 'readings.csv?variant=full&channel=0', 'recording.json'].map(async (path) =>
      (await get(here, `api/recordings/${id}/${path}`)).headers.get('content-disposition'),
    ),
  );
  expect(names).toEqual([
    `attachment; filename="2026-11-26-17-03-11-typed-in-${id}.csv"`,
    `attachment; filename="2026-11-26-17-03-11-typed-in-${id}-full-sensor-1.csv"`,
    `attachment; filename="2026-11-26-17-03-11-typed-in-${id}.json"`,
  ]);
});
