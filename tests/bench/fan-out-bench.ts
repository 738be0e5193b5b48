/**
 * From the moment at which readings are durable to the last of fifty screens, beside a bare broadcast of the same
 * bytes to as many sockets, turn by turn; and from the same moment to the pixels of one browser among fifty screens.
 */
import { once } from 'node:events';
import { createServer, type Server } from 'node:http';
import type { Browser } from 'playwright-core';
import { WebSocket, WebSocketServer } from 'ws';
import { z } from 'zod';
import { columnsFromReadings } from '../../protocol/reading.ts';
import type { RecordMessage } from '../../protocol/stream.ts';
import { Stream } from '../../server/stream/stream.ts';
import { median } from '../../web/analysis/fitting/median.ts';
import { BridgeProcess, STEADY_RECORDING } from '../support/bridge-process.ts';
import { openBrowser } from '../support/dashboard.ts';
import { recordedReading } from '../support/recorded-readings.ts';
import { quantile } from './timings.ts';

interface Row {
  readonly name: string;
  readonly ratio: number;
  readonly detail: string;
}

const SCREENS = 50;
const SENSORS = 8;
const TURNS = 1200;
const WARM_UP = 200;
/** From notification to pixels, p99; a figure of ours: what a hand at a valve takes for at once. */
const LIMIT_MS = 300;
const WATCHED_S = 30;

export async function benchFanOut(): Promise<Row[]> {
  return [await besideBareBroadcast(), await toPixels()];
}

async function besideBareBroadcast(): Promise<Row> {
  const stream = new Stream({
    record: {
      marks: () => [],
      sheet: () => [],
      takenBack: () => [],
      seenAlerts: () => [],
      readingsAfter: () => columnsFromReadings([]),
    },
    softwareVersion: '0',
    platform: 'linux',
    recordings: () => [],
    log: (line) => {
      throw new Error(line);
    },
  });
  const ours = await Listeners.open((socket) => stream.attach(socket));
  const sockets = new Set<WebSocket>();
  const bare = await Listeners.open((socket) => sockets.add(socket));
  // Greeting, record and facts, and that nothing is missing: live from there.
  await ours.all((client) => {
    client.send(JSON.stringify({ type: 'follow', recordingId: 1, afterIndex: 0 }));
  }, 4);
  const oursMs: number[] = [];
  const bareMs: number[] = [];
  for (let turn = 0; turn < TURNS; turn += 1) {
    const message = messageOf(turn);
    const bytes = Buffer.from(JSON.stringify(message));
    const runs = [
      async () => oursMs.push(await ours.last(() => stream.publish(message))),
      async () =>
        bareMs.push(
          await bare.last(() => {
            for (const socket of sockets) socket.send(bytes, { binary: false });
          }),
        ),
    ];
    // Whichever comes second finds warmer caches.
    if (turn % 2 === 0) runs.reverse();
    for (const run of runs) await run();
  }
  stream.close();
  ours.close();
  bare.close();
  const [of, beside] = [oursMs.slice(WARM_UP), bareMs.slice(WARM_UP)];
  return {
    name: `stream: durable to the last of ${SCREENS} screens / a bare broadcast of the same bytes, median`,
    ratio: median(of) / median(beside),
    detail: `${median(of).toFixed(2)} and ${median(beside).toFixed(2)} ms for a reading of each of ${SENSORS} sensors; all turns ${(sum(of) / sum(beside)).toFixed(2)}; their clients are in the same process`,
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function messageOf(turn: number): RecordMessage {
  const readings = Array.from({ length: SENSORS }, (_, channel) =>
    recordedReading(turn * SENSORS + channel, { channel, pressurePa: 100 + turn / 7 }),
  );
  return { type: 'readings', recordingId: 1, columns: columnsFromReadings(readings) };
}

/** A server with fifty clients on it. */
class Listeners {
  readonly #server: Server;
  readonly #clients: WebSocket[] = [];
  #heard = 0;
  #wanted = Infinity;
  #done: () => void = () => undefined;

  static async open(attach: (socket: WebSocket) => void): Promise<Listeners> {
    const server = createServer();
    new WebSocketServer({ server }).on('connection', attach);
    await once(server.listen(0, '127.0.0.1'), 'listening');
    const listeners = new Listeners(server);
    const address = server.address();
    const port = typeof address === 'object' ? address?.port : 0;
    for (let at = 0; at < SCREENS; at += 1) {
      const client = new WebSocket(`ws://127.0.0.1:${port}/stream`);
      client.on('message', () => listeners.#hear());
      listeners.#clients.push(client);
      await once(client, 'open');
    }
    return listeners;
  }

  private constructor(server: Server) {
    this.#server = server;
  }

  /** Does something with each, and waits until each has heard so many messages in all. */
  async all(run: (client: WebSocket) => void, messages: number): Promise<void> {
    const done = this.#until(messages * SCREENS);
    for (const client of this.#clients) run(client);
    await done;
    this.#heard = 0;
  }

  /** @returns how long it took until the last of them had heard it, ms */
  async last(send: () => void): Promise<number> {
    this.#heard = 0;
    const done = this.#until(SCREENS);
    const beganMs = performance.now();
    send();
    await done;
    return performance.now() - beganMs;
  }

  close(): void {
    for (const client of this.#clients) client.terminate();
    this.#server.close();
  }

  #until(wanted: number): Promise<void> {
    this.#wanted = wanted;
    return new Promise((resolve) => {
      this.#done = resolve;
      if (this.#heard >= wanted) resolve();
    });
  }

  #hear(): void {
    this.#heard += 1;
    if (this.#heard >= this.#wanted) this.#done();
  }
}

async function toPixels(): Promise<Row> {
  const bridge = await BridgeProcess.start(SENSORS);
  const notified = new Map<number, number>();
  const clients = Array.from({ length: SCREENS - 1 }, (_, at) =>
    followed(bridge.url, at === 0 ? notified : null),
  );
  const browser = await openBrowser();
  const seen = await pixels(browser, bridge.url);
  await browser.close();
  for (const client of clients) client.terminate();
  const { lost } = await bridge.stop();
  const tookMs = seen
    .flatMap(({ latestS, atMs }) => {
      const fromMs = notified.get(latestS);
      return fromMs === undefined ? [] : [atMs - fromMs];
    })
    .sort((a, b) => a - b);
  const p99Ms = quantile(tookMs, 0.99);
  return {
    name: `stream: notification to pixels, p99 / ${LIMIT_MS} ms, one browser and ${SCREENS - 1} sockets`,
    ratio: tookMs.length === 0 ? Infinity : p99Ms / LIMIT_MS,
    detail: `median ${quantile(tookMs, 0.5).toFixed(0)} ms, p99 ${p99Ms.toFixed(0)} ms of ${tookMs.length} readings that the chart showed; ${lost} lost`,
  };
}

const saidSchema = z.looseObject({
  type: z.string(),
  columns: z.looseObject({ channel: z.array(z.int()), elapsedS: z.array(z.number()) }).optional(),
});

/** @param notified when the watched sensor's readings came to it, ms, by their data time */
function followed(url: string, notified: Map<number, number> | null): WebSocket {
  const client = new WebSocket(new URL('stream', url.replace('http', 'ws')));
  client.on('open', () =>
    client.send(JSON.stringify({ type: 'follow', recordingId: STEADY_RECORDING, afterIndex: 0 })),
  );
  client.on('message', (data) => {
    if (notified === null || !Buffer.isBuffer(data)) return;
    const atMs = performance.timeOrigin + performance.now();
    const { type, columns } = saidSchema.parse(JSON.parse(data.toString('utf8')));
    if (type !== 'readings' || columns === undefined) return;
    for (const elapsedS of columns.elapsedS)
      if (!notified.has(elapsedS)) notified.set(elapsedS, atMs);
  });
  return client;
}

const seenSchema = z.array(z.object({ latestS: z.number(), atMs: z.number() }));

async function pixels(browser: Browser, url: string): Promise<z.infer<typeof seenSchema>> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(url);
  await page.waitForSelector('[data-testid="chart"]');
  return seenSchema.parse(await page.evaluate(WATCHING));
}

/** As text: what a compiler adds to a function is not there in the page. What is drawn is painted with the next frame. */
const WATCHING = `(async () => {
  const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
  const chart = document.querySelector('[data-testid="chart"]');
  const untilMs = performance.now() + ${WATCHED_S * 1000};
  const seen = [];
  let last = chart.dataset.latestS;
  while (performance.now() < untilMs) {
    await frame();
    const now = chart.dataset.latestS;
    if (now === last) continue;
    last = now;
    await frame();
    seen.push({ latestS: Number(now), atMs: performance.timeOrigin + performance.now() });
  }
  return seen;
})()`;
