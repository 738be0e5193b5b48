/** Job sheets that are filled in before anything is recorded, through a whole bridge. */
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiErrorSchema, recordingDetailSchema } from '../../protocol/api.ts';
import {
  MOST_UNUSED,
  preparedSheetListSchema,
  preparedSheetSchema,
} from '../../protocol/prepared-sheet.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { sheetEntrySchema, sheetFromEntries } from '../../protocol/sheet.ts';
import { makeBackup } from '../../server/record/backup.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
beforeAll(async () => {
  bridge = await runBridge();
});
afterAll(() => bridge.remove());

const ask = (path: string): Promise<Response> => fetch(new URL(`api/${path}`, bridge.url));
function post(path: string, body: unknown): Promise<Response> {
  return fetch(new URL(`api/${path}`, bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}
const sheets = async () =>
  preparedSheetListSchema.parse(await (await ask('prepared-sheets')).json()).sheets;
const keep = async (prepared: number | null, fields: unknown) =>
  preparedSheetSchema.parse(await (await post('prepared-sheets', { prepared, fields })).json());
const codeOf = async (answer: Promise<Response>) =>
  apiErrorSchema.parse(await (await answer).json()).code;

test('with nothing recorded sheets are kept, changed and listed, the latest first', async () => {
  const first = await keep(null, { site: 'Ropewalk 7', targetPa: 40 });
  const second = await keep(null, { site: 'Mill Yard', altitudeM: 1200 });
  await keep(first.prepared, { site: 'Ropewalk 9' });
  expect(await sheets()).toMatchObject([
    { prepared: second.prepared, fields: { site: 'Mill Yard', altitudeM: 1200 }, usedIn: null },
    { prepared: first.prepared, fields: { site: 'Ropewalk 9' } },
  ]);
  expect(second.prepared).not.toBe(first.prepared);
});

test('they are there after a restart, and in a copy of the record', async () => {
  await bridge.stop();
  bridge = await runBridge({ dataFolder: bridge.dataFolder });
  expect((await sheets()).map(({ fields }) => fields.site)).toEqual(['Mill Yard', 'Ropewalk 9']);
  const copy = join(bridge.dataFolder, 'copy.sqlite');
  expect(makeBackup(bridge.dataFolder, copy)).toMatchObject({ recordings: 0, broken: [] });
});

test('what a bridge takes over stands on the job’s sheet, once', async () => {
  const started = await post('rehearsals', { name: 'quarry-road-bakery', rate: 1 });
  const { id } = recordingSchema.parse(await started.json());
  const prepared = (await sheets())[1]?.prepared ?? 0;
  const where = { recordingId: id, elapsedS: 0 };
  expect((await post(`prepared-sheets/${prepared}/use`, where)).status).toBe(201);
  const detail = recordingDetailSchema.parse(await (await ask(`recordings/${id}`)).json());
  expect(detail.sheet.at(-1)).toEqual({ elapsedS: 0, fields: { site: 'Ropewalk 9' } });
  expect((await sheets())[1]).toMatchObject({ usedIn: id, usedS: 0 });
  expect(await codeOf(post(`prepared-sheets/${prepared}/use`, where))).toBe('sheet_used');
  expect(await codeOf(post('prepared-sheets', { prepared, fields: {} }))).toBe('sheet_used');
});

test('one that was discarded is gone, and its number is not given out again', async () => {
  const prepared = (await sheets())[0]?.prepared ?? 0;
  expect((await post(`prepared-sheets/${prepared}/discard`, {})).status).toBe(204);
  expect((await sheets()).map((one) => one.prepared)).not.toContain(prepared);
  expect(await codeOf(post(`prepared-sheets/${prepared}/discard`, {}))).toBe('not_found');
  expect((await keep(null, {})).prepared).toBeGreaterThan(prepared);
});

test.each([
  ['a sheet that there is none', 'prepared-sheets', { prepared: 99, fields: {} }, 'not_found'],
  [
    'a field that there is none',
    'prepared-sheets',
    { prepared: null, fields: { roof: 1 } },
    'bad_request',
  ],
  [
    'an altitude in space',
    'prepared-sheets',
    { prepared: null, fields: { altitudeM: 9e4 } },
    'bad_request',
  ],
])('%s is refused', async (_what, path, body, code) => {
  const before = await sheets();
  expect(await codeOf(post(path, body))).toBe(code);
  expect(await sheets()).toEqual(before);
});

test('taken over into a recording that there is none: refused, and still to be used', async () => {
  const { prepared } = await keep(null, { site: 'Quay' });
  const where = { recordingId: 99, elapsedS: 0 };
  expect(await codeOf(post(`prepared-sheets/${prepared}/use`, where))).toBe('not_found');
  expect((await sheets())[0]).toMatchObject({ prepared, usedIn: null });
});

const rehearsal = async (): Promise<number> => {
  const started = await post('rehearsals', { name: 'quarry-road-bakery', rate: 1 });
  return recordingSchema.parse(await started.json()).id;
};
const sheetOf = async (id: number) =>
  recordingDetailSchema.parse(await (await ask(`recordings/${id}`)).json()).sheet;
const statuses = async (answers: Promise<Response>[]) =>
  (await Promise.all(answers)).map(({ status }) => status).sort((a, b) => a - b);

test('taken over by four hands at once, and into two recordings at once, it is used once', async () => {
  const [one, other] = [await rehearsal(), await rehearsal()];
  const entriesOfBoth = async () => (await sheetOf(one)).length + (await sheetOf(other)).length;
  const before = await entriesOfBoth();
  for (const ids of [
    [one, one, one, one],
    [one, other],
  ]) {
    const { prepared } = await keep(null, { coldestPlace: 'Loft' });
    const use = (recordingId: number) =>
      post(`prepared-sheets/${prepared}/use`, { recordingId, elapsedS: 0 });
    expect(await statuses(ids.map(use))).toEqual([201, ...ids.slice(1).map(() => 409)]);
    expect(await codeOf(use(one))).toBe('sheet_used');
  }
  expect(await entriesOfBoth()).toBe(before + 2);
});

test('used while another page changes or discards it: used it stays, or it was never used', async () => {
  const recordingId = await rehearsal();
  const where = { recordingId, elapsedS: 0 };
  const changed = await keep(null, { site: 'Quay' });
  await Promise.all([
    post(`prepared-sheets/${changed.prepared}/use`, where),
    post('prepared-sheets', { prepared: changed.prepared, fields: { site: 'Pier' } }),
  ]);
  expect((await sheets()).find((one) => one.prepared === changed.prepared)?.usedIn).toBe(
    recordingId,
  );
  const discarded = await keep(null, { site: 'Mole' });
  const both = await Promise.all([
    post(`prepared-sheets/${discarded.prepared}/use`, where),
    post(`prepared-sheets/${discarded.prepared}/discard`, {}),
  ]);
  expect(both.filter(({ ok }) => ok)).toHaveLength(1);
});

test('what was typed on the job’s sheet since stays, the rest is taken over', async () => {
  const recordingId = await rehearsal();
  const typed = { elapsedS: 0.5, fields: { site: 'Typed on site', targetPa: 30 } };
  expect((await post(`recordings/${recordingId}/sheet`, typed)).status).toBe(201);
  const { prepared } = await keep(null, { site: 'In the van', targetPa: 66, people: 'Ines' });
  const answer = await post(`prepared-sheets/${prepared}/use`, { recordingId, elapsedS: 0 });
  expect(sheetEntrySchema.parse(await answer.json()).fields).toEqual({ people: 'Ines' });
  const sheet = sheetFromEntries(await sheetOf(recordingId));
  expect(sheet).toMatchObject({ site: 'Typed on site', targetPa: 30, people: 'Ines' });
  // All that was prepared is kept with it.
  const kept = (await sheets()).find((one) => one.prepared === prepared);
  expect(kept).toMatchObject({ usedIn: recordingId, fields: { site: 'In the van', targetPa: 66 } });
});

test('taken over at a moment that nothing was recorded of: refused, and still to be used', async () => {
  const recordingId = await rehearsal();
  const { prepared } = await keep(null, { site: 'Quay' });
  const answer = await post(`prepared-sheets/${prepared}/use`, { recordingId, elapsedS: 9e6 });
  const { code, message } = apiErrorSchema.parse(await answer.json());
  expect(code).toBe('bad_request');
  expect(message).toMatch(/elapsedS: 9000000 s lies after all that was recorded; give [\d.]+ s/u);
  expect((await sheets())[0]).toMatchObject({ prepared, usedIn: null });
});

test('a step that is ticked twice is refused, on a prepared sheet and on a job’s', async () => {
  const tick = { step: 'hook_up', state: 'done', atS: 0 };
  const fields = { tickedSteps: [tick, { ...tick, state: 'not_needed' }] };
  const path = `recordings/${await rehearsal()}/sheet`;
  for (const answer of [
    await post('prepared-sheets', { prepared: null, fields }),
    await post(path, { elapsedS: 0, fields }),
  ]) {
    const { code, message } = apiErrorSchema.parse(await answer.json());
    expect(code).toBe('bad_request');
    expect(message).toContain('fields.tickedSteps: the same step stands there twice');
  }
  const once = { elapsedS: 0, fields: { tickedSteps: [tick] } };
  expect((await post(path, once)).status).toBe(201);
});

test('fifty wait for their job: one more is refused, though many come at once; changed they may be', async () => {
  const more = Array.from({ length: MOST_UNUSED + 5 }, (_, at) => ({ site: `Site ${at}` }));
  const answers = await Promise.all(
    more.map((fields) => post('prepared-sheets', { prepared: null, fields })),
  );
  const waiting = (await sheets()).filter(({ usedIn }) => usedIn === null);
  expect(waiting).toHaveLength(MOST_UNUSED);
  const refused = answers.filter(({ ok }) => !ok);
  expect(refused.length).toBeGreaterThanOrEqual(5);
  for (const answer of refused) {
    expect(answer.status).toBe(409);
    expect(apiErrorSchema.parse(await answer.json()).code).toBe('too_many_prepared');
  }
  const [{ prepared } = { prepared: 0 }] = waiting;
  expect((await keep(prepared, { site: 'Elsewhere' })).fields).toEqual({ site: 'Elsewhere' });
  expect((await post(`prepared-sheets/${prepared}/discard`, {})).status).toBe(204);
  expect((await keep(null, {})).prepared).toBeGreaterThan(prepared);
});
