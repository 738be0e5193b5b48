/**
 * Peers that don't behave: the bridge stays, its memory stays bounded, a screen that behaves goes on as before, and
 * no reading is lost. The bridge has a process of its own, so that what torments it doesn't slow it down by itself.
 */
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { Socket } from 'node:net';
import { setTimeout } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { WebSocket, WebSocketServer } from 'ws';
import { READINGS_CSV_HEADER } from '../../protocol/readings-csv.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { Stream } from '../../server/stream/stream.ts';
import { BridgeProcess, STEADY_RECORDING } from '../support/bridge-process.ts';
import { frame, rawSocket, rawStream, upgradeRequest } from '../support/raw-socket.ts';
import { StreamClient } from '../support/stream-client.ts';
import { WellBehavedScreen } from '../support/well-behaved-screen.ts';

const MB = 2 ** 20;
/** Whoever is held up so long was forgotten, however busy the machine is. */
const FORGOTTEN_MS = 8000;

let bridge: BridgeProcess;
let screen: WellBehavedScreen;
/** Long enough for chunks of half a megabyte. */
let longId = 0;
/** Its request's head never ends. */
let endless: Socket;
let saidToEndless = '';
beforeAll(async () => {
  bridge = await BridgeProcess.start(8);
  endless = await rawSocket(bridge.url);
  endless.setEncoding('utf8').on('data', (data: string) => (saidToEndless += data));
  endless.write('GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n');
  screen = new WellBehavedScreen(bridge.url, STEADY_RECORDING);
  await screen.follow();
  const rows = Array.from({ length: 30_000 }, (_, at) => `${at / 10},${100 + (at % 97) / 8},,`);
  const answer = await fetch(new URL('api/imports?name=long.csv', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'text/csv' },
    body: `${READINGS_CSV_HEADER}${rows.join('\n')}\n`,
  });
  longId = recordingSchema.parse(await answer.json()).id;
});
afterAll(async () => {
  screen.close();
  const { delivered, lost } = await bridge.stop();
  expect(delivered).toBeGreaterThan(0);
  expect(lost).toBe(0);
});

const follow = () => frame(JSON.stringify({ type: 'follow', recordingId: longId, afterIndex: 0 }));

/** It hears all that is measured, without a hole, and nothing has failed. */
async function allIsWell(): Promise<void> {
  const heard = screen.indexes.size;
  await expect.poll(() => screen.indexes.size, { timeout: 20_000 }).toBeGreaterThan(heard + 40);
  expect(screen.isConnected).toBe(true);
  expect(screen.delaysMs().most).toBeLessThan(FORGOTTEN_MS);
  expect(Math.max(...screen.indexes)).toBe(screen.indexes.size);
  expect(bridge.terminal).toBe('');
}

test('sockets that ask for everything and read nothing are dropped before they fill the memory', async () => {
  const before = await bridge.state();
  const sockets: Socket[] = [];
  for (let at = 0; at < 40; at += 1) sockets.push(await rawStream(bridge.url));
  let most = before.rss;
  for (let round = 0; round < 8; round += 1) {
    for (const socket of sockets) if (!socket.destroyed) socket.write(follow());
    await setTimeout(100);
    most = Math.max(most, (await bridge.state()).rss);
  }
  // 40 that may have 4 MB each, and what is kept for reuse.
  expect((most - before.rss) / MB).toBeLessThan(450);
  await allIsWell();
  for (const socket of sockets) socket.destroy();
});

test('a flood of requests in one packet closes that connection and holds nobody up', async () => {
  const socket = await rawStream(bridge.url);
  socket.resume();
  socket.write(Buffer.concat(Array.from({ length: 5000 }, follow)));
  await once(socket, 'close');
  await allIsWell();
});

test.each([
  ['that is no message', 'nonsense', 1008],
  ['that is larger than any', `"${'x'.repeat(5000)}"`, 1009],
  ['of another shape', '{"type":"follow","recordingId":"1","__proto__":{}}', 1008],
  ['that is nested deep', '['.repeat(4000), 1008],
])('a message %s closes its connection alone', async (_what, text, code) => {
  const client = new StreamClient(bridge.url);
  await client.until(() => client.heard.length > 0);
  client.send(text);
  await client.until(() => client.closeCode !== null);
  expect(client.closeCode).toBe(code);
  await allIsWell();
});

test('peers that reset, stop in the middle, or speak no HTTP', async () => {
  for (let round = 0; round < 20; round += 1) {
    const elsewhere = await rawSocket(bridge.url);
    elsewhere.write(upgradeRequest('/stream', 'https://elsewhere.example'));
    elsewhere.resetAndDestroy();
    const noStream = await rawSocket(bridge.url);
    noStream.write(upgradeRequest('/nowhere'));
    await once(noStream, 'data');
    noStream.resetAndDestroy();
    const greeted = await rawStream(bridge.url);
    greeted.write(follow().subarray(0, 9));
    greeted.resetAndDestroy();
    const noise = await rawSocket(bridge.url);
    noise.end(Buffer.from([22, 3, 1, 0, 200, 1, 0, 255, 10, 13, 10, 13]));
  }
  const unfinished = await rawSocket(bridge.url);
  unfinished.write(
    'POST /api/rehearsals HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 60000\r\n\r\n{',
  );
  await allIsWell();
  unfinished.destroy();
});

test('an upgrade that is refused leaves no socket behind, though its peer keeps its end open', async () => {
  const socket = await rawSocket(bridge.url);
  socket.write(upgradeRequest('/nowhere'));
  socket.resume();
  await once(socket, 'close');
  expect(socket.destroyed).toBe(true);
});

test('five hundred screens are served, more are sent away, and all leave at once', async () => {
  const clients: WebSocket[] = [];
  const address = new URL('stream', bridge.url.replace('http', 'ws'));
  for (let at = 0; at < 500; at += 1) {
    const client = new WebSocket(address);
    client.on('error', () => undefined);
    clients.push(client);
    if (at % 50 === 49) await once(client, 'message');
  }
  for (const client of clients) {
    client.send(JSON.stringify({ type: 'follow', recordingId: STEADY_RECORDING, afterIndex: 1e9 }));
  }
  await allIsWell();
  const extra = Array.from({ length: 20 }, () => new StreamClient(bridge.url));
  const last = extra.at(-1);
  await last?.until(() => last.closeCode !== null);
  expect(last?.closeCode).toBe(1013);
  for (const client of clients) client.terminate();
  await allIsWell();
  const again = new StreamClient(bridge.url);
  await again.until(() => again.heard.length > 0);
  for (const client of [...extra, again]) client.close();
});

test('a request whose head never ends is given up, and its peer told', async () => {
  await expect.poll(() => endless.destroyed, { timeout: 30_000 }).toBe(true);
  expect(saidToEndless).toMatch(/^HTTP\/1\.1 408 /u);
});

test('of a thousand idle connections the latest are kept, and who asks for something finds room', async () => {
  const idle: Socket[] = [];
  for (let at = 0; at < 1000; at += 1) idle.push(await rawSocket(bridge.url));
  for (const socket of idle) socket.resume();
  await allIsWell();
  expect((await fetch(new URL('api/health', bridge.url))).status).toBe(200);
  await expect.poll(() => idle.filter(({ destroyed }) => !destroyed).length).toBeLessThan(300);
  for (const socket of idle) socket.destroy();
});

test('whoever answers no ping is gone; whoever does stays', async () => {
  const stream = new Stream({
    record: {
      marks: () => [],
      sheet: () => [],
      takenBack: () => [],
      seenAlerts: () => [],
      readingsAfter: () => {
        throw new Error('the disk is gone');
      },
    },
    softwareVersion: '0',
    platform: 'linux',
    recordings: () => [],
    log: (line) => said.push(line),
    pingEveryMs: 100,
  });
  const said: string[] = [];
  const server = createServer();
  const sockets = new WebSocketServer({ server });
  sockets.on('connection', (socket) => stream.attach(socket));
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const address = server.address();
  const url = `http://127.0.0.1:${typeof address === 'object' ? address?.port : 0}/`;
  const living = new StreamClient(url);
  const gone = await rawStream(url);
  gone.resume();
  await once(gone, 'close');
  expect(living.closeCode).toBeNull();
  // The record can't be read: the page is told, and nothing else ends.
  living.send({ type: 'follow', recordingId: 1, afterIndex: 0 });
  await living.until(() => living.closeCode !== null);
  expect(living.closeCode).toBe(1011);
  expect(said).toEqual(['Recording 1 could not be read for a page: the disk is gone']);
  stream.close();
  sockets.close();
  server.close();
});
