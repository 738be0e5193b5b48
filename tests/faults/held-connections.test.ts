/** Requests that never end and answers that nobody takes hold nothing for ever; what is only slow, or large, goes through. */
import { once } from 'node:events';
import { request } from 'node:http';
import { connect, type Socket } from 'node:net';
import { Readable } from 'node:stream';
import { text } from 'node:stream/consumers';
import { setTimeout } from 'node:timers/promises';
import Fastify, { type FastifyInstance } from 'fastify';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiErrorSchema } from '../../protocol/api.ts';
import { Exchanges } from '../../server/http/exchanges.ts';
import { boundConnections } from '../../server/http/loopback-connections.ts';
import { answerProblems } from '../../server/http/problem-answers.ts';
import { rawSocket } from '../support/raw-socket.ts';

const PACE = { lookEveryMs: 150, leastBodyBytes: 1000, looksAtRest: 4 };
const MOST = 12;
/** More than the operating system keeps for both ends. */
const ANSWER_BYTES = 24 * 2 ** 20;

let server: FastifyInstance;
let url = '';
/** The next body waits so long before it is taken. */
let takenAfterMs = 0;

beforeAll(async () => {
  server = Fastify({ bodyLimit: 2 ** 20, forceCloseConnections: true });
  answerProblems(server);
  const exchanges = new Exchanges(server, PACE);
  boundConnections(server.server, () => exchanges.busy(), MOST);
  server.addContentTypeParser('text/plain', (_request, body, parsed) => parsed(null, body));
  server.post('/take', async ({ body }) => {
    if (!(body instanceof Readable)) throw new TypeError('no body');
    await setTimeout(takenAfterMs);
    return String((await text(body)).length);
  });
  server.post('/refuse', () => 'not read');
  server.get('/give', () =>
    Readable.from(Array.from({ length: ANSWER_BYTES / 65_536 }, () => Buffer.alloc(65_536, 'x'))),
  );
  server.get('/', () => 'here');
  url = await server.listen({ host: '127.0.0.1', port: 0 });
});
afterAll(() => server.close());

function head(path: string, bytes: number): string {
  const lines = [`POST ${path} HTTP/1.1`, 'Host: a', 'Content-Type: text/plain'];
  return [...lines, `Content-Length: ${bytes}`, '\r\n'].join('\r\n');
}

function heardOn(socket: Socket): { text: string } {
  const heard = { text: '' };
  socket.setEncoding('latin1').on('data', (data: string) => (heard.text += data));
  return heard;
}

/** Byte by byte, until it is cut off. */
async function trickle(socket: Socket): Promise<void> {
  while (!socket.destroyed) {
    socket.write('x');
    await setTimeout(20);
  }
}

test('a body that comes byte by byte is given up, and its sender is told', async () => {
  const socket = await rawSocket(url);
  const heard = heardOn(socket);
  socket.write(head('/take', 100_000));
  await trickle(socket);
  expect(heard.text).toMatch(/^HTTP\/1\.1 408 /u);
  const answer: unknown = JSON.parse(heard.text.slice(heard.text.indexOf('{')));
  expect(apiErrorSchema.parse(answer).code).toBe('request_stalled');
});

test('one that is answered without being read is not waited for either', async () => {
  const socket = await rawSocket(url);
  const heard = heardOn(socket);
  socket.write(head('/refuse', 100_000));
  await trickle(socket);
  expect(heard.text).toMatch(/^HTTP\/1\.1 200 /u);
});

test('one that keeps coming is taken, however long it takes', async () => {
  const sent = request(new URL('/take', url), {
    method: 'POST',
    headers: { 'content-type': 'text/plain' },
  });
  const answer = once(sent, 'response');
  for (let part = 0; part < 40; part += 1) {
    sent.write('x'.repeat(1000));
    await setTimeout(25);
  }
  sent.end();
  const [response]: unknown[] = await answer;
  if (!(response instanceof Readable)) throw new TypeError('no answer');
  expect(await text(response)).toBe('40000');
});

test('one that we don’t take, since the disk is slow, is not given up', async () => {
  takenAfterMs = PACE.lookEveryMs * 5;
  const body = 'x'.repeat(500_000);
  const answer = await fetch(new URL('/take', url), {
    method: 'POST',
    headers: { 'content-type': 'text/plain' },
    body,
  });
  takenAfterMs = 0;
  expect(await answer.text()).toBe(String(body.length));
});

test('an answer that nobody takes is cut off; one that is taken slowly is not', async () => {
  let cutOff = 0;
  server.server.on('connection', (served: Socket) => served.once('close', () => (cutOff += 1)));
  const slow = connect(Number(new URL(url).port), '127.0.0.1');
  let taken = 0;
  slow.write('GET /give HTTP/1.1\r\nHost: a\r\n\r\n');
  const stopped = await rawSocket(url);
  stopped.pause();
  stopped.write('GET /give HTTP/1.1\r\nHost: a\r\n\r\n');
  const slowly = (async () => {
    for await (const data of slow) {
      if (!Buffer.isBuffer(data)) throw new TypeError('bytes');
      taken += data.length;
      if (taken > ANSWER_BYTES) return;
      await setTimeout(3);
    }
  })();
  await expect.poll(() => cutOff, { timeout: 20_000 }).toBe(1);
  // It notices once it reads on.
  stopped.resume();
  let late = 0;
  stopped.on('data', (data) => (late += data.length));
  await Promise.all([once(stopped, 'close'), slowly]);
  expect(late).toBeLessThan(ANSWER_BYTES);
  expect(taken).toBeGreaterThan(ANSWER_BYTES);
  slow.destroy();
});

test('whoever is idle longest makes room; whoever waits for an answer stays', async () => {
  takenAfterMs = 1000;
  const waiting = await rawSocket(url);
  const heard = heardOn(waiting);
  waiting.write(`${head('/take', 3)}abc`);
  const idle: Socket[] = [];
  for (let at = 0; at < 3 * MOST; at += 1) idle.push(await rawSocket(url));
  for (const socket of idle) socket.resume();
  const answer = await fetch(url, { headers: { connection: 'close' } });
  expect(await answer.text()).toBe('here');
  await expect.poll(() => heard.text, { timeout: 5000 }).toMatch(/\r\n3$/u);
  await expect
    .poll(() => idle.filter(({ destroyed }) => !destroyed).length)
    .toBeLessThanOrEqual(MOST);
  for (const socket of [...idle, waiting]) socket.destroy();
  takenAfterMs = 0;
});
