/** Jobs of a whole bridge: listed, begun late, signed, put away, deleted. */
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiErrorSchema, recordingDetailSchema } from '../../protocol/api.ts';
import {
  type JobCard,
  jobCardSchema,
  jobCurvesSchema,
  jobListSchema,
} from '../../protocol/job-card.ts';
import { markSchema } from '../../protocol/mark.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { verifiedSchema } from '../../protocol/verified.ts';
import { CARDS_FILE } from '../../server/jobs/kept-cards.ts';
import { english } from '../../web/words/english.ts';
import { readInScenario } from '../support/file-of-scenario.ts';
import { played } from '../support/played-scenario.ts';
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

const readIn = (scenario: string, site: string) => readInScenario(bridge.url, scenario, site);

async function list(query: Readonly<Record<string, string>> = {}): Promise<JobCard[]> {
  const asked = new URLSearchParams(query);
  return jobListSchema.parse(await (await ask(`jobs?${asked.toString()}`)).json()).jobs;
}

/** The jobs of a recording, once all of them are judged. */
async function judged(recordingId: number): Promise<JobCard[]> {
  for (;;) {
    const jobs = await list({ archived: 'all', limit: '500' });
    const own = jobs.filter((job) => job.recordingId === recordingId);
    if (own.every(({ outcomes }) => outcomes !== null)) return own;
    await setTimeout(50);
  }
}

async function detail(recordingId: number) {
  return recordingDetailSchema.parse(await (await ask(`recordings/${recordingId}`)).json());
}

async function codeOf(answer: Promise<Response>): Promise<string> {
  return apiErrorSchema.parse(await (await answer).json()).code;
}

test('are found by site, day, verdict and signer, the latest first', async () => {
  const wet = await readIn('weir-street-archive', 'Ágape Bakery');
  const tight = await readIn('quarry-road-bakery', 'Weir Street');
  expect((await judged(wet))[0]?.outcomes?.[0]?.verdict).toBe('leak_and_moisture');
  expect((await judged(tight))[0]?.outcomes?.[0]?.verdict).toBe('tight_dry');
  const ids = async (query: Readonly<Record<string, string>>) =>
    (await list(query)).map(({ recordingId }) => recordingId);
  expect(await ids({})).toEqual([tight, wet]);
  expect(await ids({ search: 'agape cold' })).toEqual([wet]);
  expect(await ids({ verdict: 'tight_dry' })).toEqual([tight]);
  expect(await ids({ verdict: 'no_hold' })).toEqual([]);
  expect(await ids({ origin: 'rehearsal' })).toEqual([]);
  expect(await ids({ search: String(new Date().getFullYear()) })).toEqual([tight, wet]);
  expect(await ids({ fromMs: String(Date.now() + 1000) })).toEqual([]);
  expect(await ids({ limit: '1', skip: '1' })).toEqual([wet]);
  const sign = { beginMark: 0, fromS: 0, name: 'R. Vane', licence: 'L-7', remark: 'dried twice' };
  expect((await post(`recordings/${wet}/sign-offs`, sign)).status).toBe(201);
  expect(await ids({ search: 'vane' })).toEqual([wet]);
  expect((await detail(wet)).signOffs).toMatchObject([{ ...sign, softwareVersion: '0.1.0' }]);
});

test('a job can be begun where its pump was switched on, and that can be taken back', async () => {
  const id = await readIn('weir-street-archive', 'Harbour office');
  const [whole] = await judged(id);
  const answer = await post(`recordings/${id}/marks`, {
    kind: 'job_begun',
    elapsedS: 600,
    text: '',
  });
  const never = { kind: 'job_begun', elapsedS: 999_999, text: '' };
  expect(await codeOf(post(`recordings/${id}/marks`, never))).toBe('bad_request');
  const mark = markSchema.parse(await answer.json());
  const [second, first] = await judged(id);
  expect(first).toMatchObject({ beginMark: 0, fromS: 0, lastS: 600, site: 'Harbour office' });
  // The site is of the first job; the second has none yet.
  expect(second).toMatchObject({ beginMark: mark.id, fromS: 600, site: '' });
  expect(first?.outcomes?.[0]?.verdict).toBeNull();
  expect(second?.outcomes?.[0]?.verdict).toBe(whole?.outcomes?.[0]?.verdict);
  // A file does not say what time of day it was: both were read in then.
  expect(second?.startedAtMs).toBe(first?.startedAtMs);
  await post(`recordings/${id}/marks/${mark.id}/take-back`, {});
  expect(await judged(id)).toEqual([whole]);
  expect((await detail(id)).marksTakenBack).toEqual([mark]);
  expect(await codeOf(post(`recordings/${id}/marks/${mark.id}/take-back`, {}))).toBe('not_found');
});

test('its curve comes with the moments at which two can be laid over each other', async () => {
  const id = await readIn('weir-street-archive', 'Quay');
  const answer = await ask(`recordings/${id}/jobs/0/curves`);
  const [curve] = jobCurvesSchema.parse(await answer.json()).curves;
  const { marks } = played('weir-street-archive');
  const isolated = marks.findLast(({ kind }) => kind === 'isolated');
  expect(curve?.isolatedS).toBe(isolated?.elapsedS);
  expect(curve?.pullDownS).toBe(marks.find(({ kind }) => kind === 'pump_on')?.elapsedS);
  const points = curve?.pieces.flatMap(({ elapsedS }) => elapsedS).length;
  expect(points).toBeGreaterThan(500);
  expect(points).toBeLessThan(2000);
});

test('is put away, taken out again, and deleted for good out of the archive alone', async () => {
  const before = await readIn('lindens-dental-practice', 'Mill');
  const id = await readIn('lindens-dental-practice', 'To be forgotten');
  const after = await readIn('lindens-dental-practice', 'Lock');
  const job = `recordings/${id}/jobs/0`;
  expect(await codeOf(post(`${job}/delete`, { forGood: true }))).toBe('job_not_archived');
  const put = jobCardSchema.parse(await (await post(`${job}/archive`, { archived: true })).json());
  expect(put.archived).toBe(true);
  expect(await list({ search: 'forgotten' })).toEqual([]);
  expect(await list({ search: 'forgotten', archived: 'yes' })).toHaveLength(1);
  await post(`${job}/archive`, { archived: false });
  expect(await list({ search: 'forgotten' })).toHaveLength(1);
  await post(`${job}/archive`, { archived: true });
  expect(await codeOf(post(`${job}/delete`, {}))).toBe('bad_request');
  expect((await post(`${job}/delete`, { forGood: true })).status).toBe(204);
  expect((await ask(`recordings/${id}`)).status).toBe(404);
  expect(await list({ archived: 'all', search: 'forgotten' })).toEqual([]);
  for (const other of [before, after]) {
    const verified = verifiedSchema.parse(await (await ask(`recordings/${other}/verified`)).json());
    expect(verified.broken).toBeNull();
  }
});

/** A recording of two visits: the second one's leak would pass by the limits of the first. */
async function twoVisits(first: string, second: string) {
  const id = await readIn('weir-street-archive', first);
  const lax = { targetPa: 300, endLimitPa: 300, allowedRisePa: 300, leakLimitPaPerS: 900 };
  await post(`recordings/${id}/sheet`, { elapsedS: 1, fields: lax });
  const begin = { kind: 'job_begun', elapsedS: 10, text: '' };
  const mark = markSchema.parse(await (await post(`recordings/${id}/marks`, begin)).json());
  await post(`recordings/${id}/sheet`, { elapsedS: 11, fields: { site: second } });
  return { id, beginMark: mark.id };
}

const verdictOf = async (id: number, beginMark: number) =>
  (await judged(id)).find((card) => card.beginMark === beginMark)?.outcomes?.[0]?.verdict;

test('no limit of one customer passes the leak of another, and no deletion changes a verdict', async () => {
  const { id, beginMark } = await twoVisits('Alpha', 'Beta');
  expect(await verdictOf(id, beginMark)).toBe('leak_and_moisture');
  await post(`recordings/${id}/jobs/0/archive`, { archived: true });
  expect((await post(`recordings/${id}/jobs/0/delete`, { forGood: true })).status).toBe(204);
  expect(await verdictOf(id, beginMark)).toBe('leak_and_moisture');
  // What is deleted is not listed as a job without a hold.
  expect((await judged(id)).map((card) => card.beginMark)).toEqual([beginMark]);
});

test('a report is of one job: who does not say which gets none of several', async () => {
  const { id, beginMark } = await twoVisits('Gammaville', 'Deltaville');
  expect(await codeOf(ask(`recordings/${id}/report`))).toBe('bad_request');
  expect(await codeOf(ask(`recordings/${id}/report.pdf`))).toBe('bad_request');
  const report = await (await ask(`recordings/${id}/report?job=${beginMark}`)).text();
  expect(report).toContain('Deltaville');
  expect(report).not.toContain('Gammaville');
  const counted = async (mark: number) => {
    const page = await (await ask(`recordings/${id}/report?job=${mark}`)).text();
    return Number(/<td>(\d+): /u.exec(page)?.[1]);
  };
  const rows = (await (await ask(`recordings/${id}/readings.csv?job=${beginMark}`)).text()).trim();
  expect(await counted(beginMark)).toBe(rows.split('\n').length - 1);
  expect(await counted(0)).toBeGreaterThan(0);
});

test('what was signed for one stretch is not passed off for another', async () => {
  const { id, beginMark } = await twoVisits('Signed', 'Not signed');
  const words = { name: 'R. Vane', licence: '', remark: '', quoted: 'Tight' };
  expect(await codeOf(post(`recordings/${id}/sign-offs`, { beginMark, fromS: 0, ...words }))).toBe(
    'job_changed',
  );
  await post(`recordings/${id}/sign-offs`, { beginMark: 0, fromS: 0, ...words });
  const said = async () => (await ask(`recordings/${id}/report?job=0`)).text();
  expect(await said()).not.toContain('after it was signed');
  await post(`recordings/${id}/marks/${beginMark}/take-back`, {});
  expect(await said()).toContain('after it was signed');
  // And the other way: the job was signed as a whole, and lost its end since.
  await post(`recordings/${id}/sign-offs`, { beginMark: 0, fromS: 0, ...words });
  expect(await said()).not.toContain('after it was signed');
  await post(`recordings/${id}/marks`, { kind: 'job_begun', elapsedS: 300, text: '' });
  expect(await said()).toContain(english.report.signedOther);
});

test('nobody signs a rehearsal', async () => {
  const { id } = recordingSchema.parse(
    await (await post('rehearsals', { name: 'quarry-road-bakery' })).json(),
  );
  const sign = { beginMark: 0, fromS: 0, name: 'R. Vane' };
  expect(await codeOf(post(`recordings/${id}/sign-offs`, sign))).toBe('nothing_to_sign');
  await post('rehearsals/current', { stop: true });
  await expect.poll(async () => (await judged(id))[0]?.running).toBe(false);
});

test('one that runs can be neither put away nor deleted', async () => {
  const begun = await post('rehearsals', { name: 'quarry-road-bakery' });
  const { id } = recordingSchema.parse(await begun.json());
  const job = `recordings/${id}/jobs/0`;
  expect(await codeOf(post(`${job}/archive`, { archived: true }))).toBe('job_running');
  expect(await codeOf(post(`${job}/delete`, { forGood: true }))).toBe('job_running');
  expect((await list({ origin: 'rehearsal' }))[0]).toMatchObject({
    running: true,
    simulated: true,
  });
  await post('rehearsals/current', { stop: true });
  await expect.poll(async () => (await judged(id))[0]?.running).toBe(false);
});

test('the list is the same after a restart, and when its own file is lost', async () => {
  const all = { archived: 'all', limit: '500' };
  for (const { recordingId } of await list(all)) await judged(recordingId);
  const before = await list(all);
  const { dataFolder } = bridge;
  const restart = async () => {
    await bridge.stop();
    bridge = await runBridge({ dataFolder });
  };
  await restart();
  expect(await list(all)).toEqual(before);
  await bridge.stop();
  const file = join(dataFolder, CARDS_FILE);
  expect(existsSync(file)).toBe(true);
  writeFileSync(file, 'no database');
  bridge = await runBridge({ dataFolder });
  for (const { recordingId } of before) await judged(recordingId);
  expect(await list(all)).toEqual(before);
});
