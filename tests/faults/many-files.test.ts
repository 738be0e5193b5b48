/** Files that many send at once are taken in as far as there is room; the others are told so before they are read. */
import { setTimeout } from 'node:timers/promises';
import Fastify from 'fastify';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiErrorSchema, MOST_IMPORT_BYTES } from '../../protocol/api.ts';
import { READINGS_CSV_HEADER } from '../../protocol/readings-csv.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { RECORD_MEDIA_TYPE } from '../../protocol/restored.ts';
import { answerProblems } from '../../server/http/problem-answers.ts';
import { RoomForFiles } from '../../server/http/room-for-files.ts';
import { rawSocket } from '../support/raw-socket.ts';
import { type RunningBridge, runBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
beforeAll(async () => {
  bridge = await runBridge();
});
afterAll(() => bridge.remove());

/** A body of which nothing but the beginning comes. @param bytes null: it does not say how many */
async function begun(path: string, type: string, bytes: number | null) {
  const socket = await rawSocket(bridge.url);
  const size = bytes === null ? 'Transfer-Encoding: chunked' : `Content-Length: ${bytes}`;
  const lines = [
    `POST ${path} HTTP/1.1`,
    'Host: 127.0.0.1',
    `Content-Type: ${type}`,
    size,
    'Expect: 100-continue',
  ];
  const heard = { text: '', socket };
  socket.setEncoding('utf8').on('data', (data: string) => (heard.text += data));
  socket.write([...lines, '\r\n'].join('\r\n'));
  await expect.poll(() => heard.text).toBe('HTTP/1.1 100 Continue\r\n\r\n');
  return heard;
}

const readIn = (body = `${READINGS_CSV_HEADER}0,100,,20\n`, type = 'text/csv') =>
  fetch(new URL('api/imports?name=a.csv', bridge.url), {
    method: 'POST',
    headers: { 'content-type': type },
    body,
  });

/** A file of a whole recording. */
async function wholeFile(readings: number): Promise<string> {
  const rows = Array.from({ length: readings }, (_, at) => `${at},${100 + (at % 7)},,20\n`);
  const answer = await readIn(READINGS_CSV_HEADER + rows.join(''));
  const { id } = recordingSchema.parse(await answer.json());
  return (await fetch(new URL(`api/recordings/${id}/recording.json`, bridge.url))).text();
}

const refusal = async (answer: Response) => ({
  status: answer.status,
  code: apiErrorSchema.parse(await answer.json()).code,
  retryAfter: answer.headers.get('retry-after'),
});

test('two of the largest are read in at once, a third is told to come again; and can, once one is gone', async () => {
  const path = '/api/imports?name=a.csv';
  const first = await begun(path, 'text/csv', MOST_IMPORT_BYTES);
  const second = await begun(path, 'application/json', null);
  expect(await refusal(await readIn())).toEqual({
    status: 503,
    code: 'too_many_files',
    retryAfter: '15',
  });
  // They are still waited for.
  expect(`${first.text}${second.text}`).not.toContain('503');
  first.socket.destroy();
  await expect.poll(async () => (await readIn()).status).toBe(201);
  second.socket.destroy();
});

test('many small ones are read in at once', async () => {
  const answers = await Promise.all(Array.from({ length: 40 }, () => readIn()));
  expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 201));
});

test('files of whole recordings take one thread after the other', async () => {
  const [long, short] = [await wholeFile(30_000), await wholeFile(1)];
  const done: string[] = [];
  const longIn = readIn(long, 'application/json').then(() => done.push('long'));
  // It has been heard.
  await readIn();
  await Promise.all([longIn, readIn(short, 'application/json').then(() => done.push('short'))]);
  expect(done).toEqual(['long', 'short']);
});

test('one backup at a time is restored', async () => {
  const first = await begun('/api/restore', RECORD_MEDIA_TYPE, 10_000);
  const restore = () =>
    fetch(new URL('api/restore', bridge.url), {
      method: 'POST',
      headers: { 'content-type': RECORD_MEDIA_TYPE },
      body: 'no database',
    });
  expect((await restore()).status).toBe(503);
  first.socket.destroy();
  await expect.poll(async () => (await restore()).status).toBe(400);
});

test('a file keeps its place until it is dealt with, though its sender is gone', async () => {
  const server = Fastify();
  answerProblems(server);
  const room = new RoomForFiles(1);
  const finish: (() => void)[] = [];
  server.get('/', { onRequest: room.onRequest }, (request) =>
    room.during(request, () => new Promise<void>((resolve) => void finish.push(resolve))),
  );
  const url = await server.listen({ host: '127.0.0.1', port: 0 });
  const gone = await rawSocket(url);
  gone.write('GET / HTTP/1.1\r\nHost: a\r\n\r\n');
  await expect.poll(() => finish.length).toBe(1);
  gone.destroy();
  await setTimeout(50);
  expect((await fetch(url)).status).toBe(503);
  finish[0]?.();
  const again = fetch(url);
  await expect.poll(() => finish.length).toBe(2);
  finish[1]?.();
  expect((await again).status).toBe(200);
  await server.close();
});
