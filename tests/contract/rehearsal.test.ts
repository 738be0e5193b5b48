/** Rehearsals as pages meet them: jump, begin again, call, reveal, and what is left of it all. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import {
  apiErrorSchema,
  callSchema,
  recordingDetailSchema,
  resultListSchema,
  revealSchema,
} from '../../protocol/api.ts';
import type { NewCall, RehearsalResult, StartRehearsal } from '../../protocol/api.ts';
import { parseReadingsCsv } from '../../protocol/readings-csv.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import type { Recording } from '../../protocol/recording.ts';
import { scenarioNamed } from '../../server/sources/rehearsal/scenario-named.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';

const LEAKING = scenarioNamed('weir-street-archive');
const WET = scenarioNamed('lindens-dental-practice');
const CALL: NewCall = { trainee: ' Ines ', cause: 'moisture', surePercent: 70 };

let bridge: RunningBridge;

beforeEach(async () => {
  bridge = await runBridge();
});
afterEach(() => bridge.remove());

const address = (path: string): URL => new URL(`api/${path}`, bridge.url);
const text = async (path: string): Promise<string> => (await fetch(address(path))).text();
const json = async (path: string): Promise<unknown> => JSON.parse(await text(path));

function post(path: string, body: unknown): Promise<Response> {
  return fetch(address(path), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

async function refusal(path: string, body: unknown): Promise<string> {
  const answer = await post(path, body);
  expect(answer.status).toBe(409);
  return apiErrorSchema.parse(await answer.json()).code;
}

async function start(wish: Partial<StartRehearsal> = {}): Promise<Recording> {
  const answer = await post('rehearsals', { name: LEAKING.card.name, rate: 1, seed: 4, ...wish });
  expect(answer.status).toBe(201);
  return recordingSchema.parse(await answer.json());
}

async function results(): Promise<RehearsalResult[]> {
  return resultListSchema.parse(await json('rehearsals/results')).results;
}

const detail = async ({ id }: Recording) =>
  recordingDetailSchema.parse(await json(`recordings/${id}`));

/** Listens to a recording from its first reading on. */
async function listen(recording: Recording): Promise<StreamClient> {
  const client = new StreamClient(bridge.url);
  await client.until(() => client.heard[0]?.type === 'hello');
  client.send({ type: 'follow', recordingId: recording.id, afterIndex: 0 });
  return client;
}

const phase = ({ heard }: StreamClient) =>
  heard.findLast((said) => said.type === 'source')?.source.phase;

/** Jumps from event to event until the helper has made such a mark. */
async function jumpUntil(client: StreamClient, kind: string): Promise<void> {
  const marks = () => client.heard.filter((said) => said.type === 'mark').map(({ mark }) => mark);
  while (!marks().some((mark) => mark.kind === kind)) {
    const before = marks().length;
    expect((await post('rehearsals/current', { jump: true })).status).toBe(204);
    await client.until(() => marks().length > before);
  }
}

describe('a jump through the whole bridge', () => {
  test('goes to the helper’s next events with every reading on the way, also while paused', async () => {
    const recording = await start();
    const client = await listen(recording);
    await post('rehearsals/current', { paused: true });
    await jumpUntil(client, 'isolated');
    await client.until(() => phase(client) === 'paused');
    const { readingCount, marks } = await detail(recording);
    const isolatedS = marks.find(({ kind }) => kind === 'isolated')?.elapsedS ?? NaN;
    await client.until(() => client.indexes().length >= readingCount);
    expect(client.indexes()).toEqual(Array.from({ length: readingCount }, (_, at) => at + 1));
    const rows = parseReadingsCsv(await text(`recordings/${recording.id}/readings.csv`));
    expect(rows.map(({ elapsedS }) => elapsedS)).toEqual([...rows.keys()]);
    expect(rows.at(-1)?.elapsedS).toBe(isolatedS);
    client.close();
  });
});

test('an action that changes nothing says so, and leaves no mark', async () => {
  const recording = await start({ helper: false });
  expect(await refusal('rehearsals/current', { action: 'pump_off' })).toBe('no_effect');
  const client = await listen(recording);
  expect((await post('rehearsals/current', { action: 'pump_on' })).status).toBe(204);
  await client.until(() => client.heard.some(({ type }) => type === 'mark'));
  client.close();
  expect((await detail(recording)).marks.map(({ kind }) => kind)).toEqual(['pump_on']);
});

describe('the same rehearsal begun again', () => {
  test('ends the first, and brings the same readings anew', async () => {
    const first = await start({ rate: 120 });
    const client = await listen(first);
    await client.until(() => client.indexes().length >= 60);
    client.close();
    const second = await start({ rate: 120 });
    const ended = await detail(first);
    expect(ended.recording.open).toBe(false);
    expect(second.id).toBeGreaterThan(first.id);

    const again = await listen(second);
    await again.until(() => again.indexes().length >= ended.readingCount);
    const phases = again.heard.flatMap((said) => (said.type === 'hello' ? said.sources : []));
    expect(phases.find(({ id }) => id === 'rehearsal')?.phase).toBe('live');
    again.close();
    const rowsOf = async ({ id }: Recording) =>
      parseReadingsCsv(await text(`recordings/${id}/readings.csv`));
    const before = await rowsOf(first);
    expect((await rowsOf(second)).slice(0, before.length)).toEqual(before);
    expect(before).toHaveLength(ended.readingCount);
  });

  test('takes a call of its own', async () => {
    await start();
    await post('rehearsals/call', CALL);
    await start();
    expect((await post('rehearsals/call', CALL)).status).toBe(201);
  });
});

describe('a call', () => {
  test('is made once while it runs, with the time at which it was made', async () => {
    const recording = await start({ helper: false });
    const client = await listen(recording);
    await post('rehearsals/current', { paused: true });
    await post('rehearsals/current', { jump: true });
    await client.until(() => client.indexes().length > 600 && phase(client) === 'paused');
    const answer = await post('rehearsals/call', CALL);
    expect(answer.status).toBe(201);
    expect(callSchema.parse(await answer.json())).toEqual({
      ...CALL,
      trainee: 'Ines',
      elapsedS: (await detail(recording)).readingCount - 1,
    });
    expect(await refusal('rehearsals/call', CALL)).toBe('already_called');
    expect((await detail(recording)).recording.open).toBe(true);
    client.close();
  });

  test('can be made after the end, and not after the reveal', async () => {
    expect(await refusal('rehearsals/call', CALL)).toBe('no_rehearsal');
    await start();
    await post('rehearsals/current', { stop: true });
    expect((await post('rehearsals/call', CALL)).status).toBe(201);
    await start();
    await post('rehearsals/reveal', { withoutCall: true });
    expect(await refusal('rehearsals/call', CALL)).toBe('already_revealed');
  });

  test('of the wrong form is refused and does not count', async () => {
    await start();
    for (const wrong of [{ trainee: ' ' }, { cause: 'ghosts' }, { surePercent: 0 }]) {
      const answer = await post('rehearsals/call', { ...CALL, ...wrong });
      expect(apiErrorSchema.parse(await answer.json()).code).toBe('bad_request');
    }
    expect((await post('rehearsals/call', CALL)).status).toBe(201);
  });
});

describe('a reveal', () => {
  test('waits for the call, ends the rehearsal, and is the same when asked again', async () => {
    expect(await refusal('rehearsals/reveal', {})).toBe('no_rehearsal');
    const recording = await start();
    expect(await refusal('rehearsals/reveal', {})).toBe('no_call');
    expect((await detail(recording)).recording.open).toBe(true);
    await post('rehearsals/call', CALL);
    const told = revealSchema.parse(await (await post('rehearsals/reveal', {})).json());
    expect(told).toMatchObject({
      name: LEAKING.card.name,
      cause: LEAKING.cause,
      truth: LEAKING.truth,
      ballastOpenAtStart: LEAKING.ballastOpen,
    });
    expect((await detail(recording)).recording.open).toBe(false);
    expect(await (await post('rehearsals/reveal', {})).json()).toEqual(told);
    expect(await results()).toHaveLength(1);
    expect(await refusal('rehearsals/current', { paused: true })).toBe('no_rehearsal');
  });

  test('can be asked for without a call; that is no result', async () => {
    await start();
    const told = await post('rehearsals/reveal', { withoutCall: true });
    expect(revealSchema.parse(await told.json()).cause).toBe(LEAKING.cause);
    expect((await post('rehearsals/reveal', {})).status).toBe(200);
    expect(await results()).toEqual([]);
  });
});

describe('results', () => {
  test('are call and truth of each trainee, the latest first, after a restart too', async () => {
    const first = await start({ name: WET.card.name });
    const client = await listen(first);
    await jumpUntil(client, 'isolated');
    client.close();
    await post('rehearsals/call', CALL);
    const { toldS } = revealSchema.parse(await (await post('rehearsals/reveal', {})).json());
    expect(toldS).toBeGreaterThan(0);
    const second = await start({ name: 'quarry-road-bakery', seed: 0xffff_ffff });
    await post('rehearsals/call', {
      trainee: 'Jonas',
      cause: 'in_order',
      surePercent: 100,
    });
    await post('rehearsals/reveal', {});
    // Called, and never revealed: no result.
    await start();
    await post('rehearsals/call', CALL);

    const before = await results();
    expect(before).toMatchObject([
      {
        recordingId: second.id,
        trainee: 'Jonas',
        scenario: 'quarry-road-bakery',
        seed: 0xffff_ffff,
        cause: 'in_order',
        truth: 'in_order',
        surePercent: 100,
        toldS: null,
      },
      {
        recordingId: first.id,
        trainee: 'Ines',
        scenario: WET.card.name,
        seed: 4,
        cause: 'moisture',
        truth: WET.cause,
        toldS,
      },
    ]);
    await bridge.stop();
    bridge = await runBridge({ dataFolder: bridge.dataFolder });
    expect(await results()).toEqual(before);
  });
});

test('nothing tells the cause before the reveal', async () => {
  const recording = await start();
  const client = await listen(recording);
  await jumpUntil(client, 'isolated');
  await post('rehearsals/call', CALL);
  const said = [
    JSON.stringify(client.heard),
    await (await post('rehearsals/reveal', { withoutCall: 'yes' })).text(),
    await (await post('rehearsals', { name: 'nowhere' })).text(),
  ];
  const paths = ['health', 'recordings', 'rehearsals', 'rehearsals/results'];
  const own = ['', '/readings.csv', '/report'].map((part) => `recordings/${recording.id}${part}`);
  for (const path of [...paths, ...own]) said.push(await text(path));
  client.close();
  expect(said.every((part) => part.length > 10)).toBe(true);

  // What only the reveal may say: the words of the truth, and where the rig lets air in.
  const secrets = [
    LEAKING.truth,
    LEAKING.tells,
    ...LEAKING.rig.sections.flatMap(({ inflows }) => inflows.map(({ name }) => name)),
    '"cause":',
    '"truth":',
    '"toldS":',
    'leakPaPerS',
    'waterKgAtStart',
  ];
  expect(secrets.length).toBeGreaterThan(7);
  for (const secret of secrets) expect(said.join('\n')).not.toContain(secret);
});

test('a job drawn by its seed is on the list, is rehearsed by name and seed, and revealed', async () => {
  expect(await text('rehearsals')).toContain('"generated-hard"');
  for (const seed of [6, 7]) {
    const wish = { name: 'generated-hard', seed };
    // The number stays with it: without, nobody could tell which job it was.
    expect((await start(wish)).title).toBe(`generated-hard ${seed}`);
    const drawn = scenarioNamed(wish.name, seed);
    const answer = await post('rehearsals/reveal', { withoutCall: true });
    expect(revealSchema.parse(await answer.json())).toMatchObject({
      name: wish.name,
      cause: drawn.cause,
      truth: drawn.truth,
    });
  }
  expect(scenarioNamed('generated-hard', 6).truth).not.toBe(
    scenarioNamed('generated-hard', 7).truth,
  );
});
