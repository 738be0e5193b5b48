/**
 * `npm run soak -- --hours 24`: eight sensors at 10 Hz of data time and twenty screens, as fast as this machine can
 * take it in: the next minute is delivered once all screens have the last one. Data time is not wall time: both are
 * printed, and what depends on waiting (timers, the system's caches) is only tested by as much wall time as it took.
 */
import { once } from 'node:events';
import { parseArgs } from 'node:util';
import { WebSocket } from 'ws';
import { z } from 'zod';
import { BridgeProcess, STEADY_RECORDING } from '../support/bridge-process.ts';

const MB = 2 ** 20;
const SENSORS = 8;
const SCREENS = 20;
const READINGS_A_MINUTE = SENSORS * 600;

const { values: options } = parseArgs({ options: { hours: { type: 'string', default: '24' } } });
const hours = Number(options.hours);
if (!(hours > 0 && hours <= 1000)) {
  console.error('--hours takes a number above 0, up to 1000.');
  process.exit(1);
}

const spokenSchema = z.looseObject({
  type: z.string(),
  columns: z.looseObject({ index: z.array(z.int()) }).optional(),
});

/** Counts what it hears and whether anything is missing; it does not keep it. */
class CountingScreen {
  readonly #socket: WebSocket;
  lastIndex = 0;
  holes = 0;

  static async open(url: string): Promise<CountingScreen> {
    const socket = new WebSocket(new URL('stream', url.replace('http', 'ws')));
    const screen = new CountingScreen(socket);
    await once(socket, 'open');
    socket.send(JSON.stringify({ type: 'follow', recordingId: STEADY_RECORDING, afterIndex: 0 }));
    return screen;
  }

  private constructor(socket: WebSocket) {
    this.#socket = socket;
    socket.on('message', (data) => {
      if (!Buffer.isBuffer(data)) throw new Error('the stream is text');
      const { columns } = spokenSchema.parse(JSON.parse(data.toString('utf8')));
      for (const index of columns?.index ?? []) {
        if (index !== this.lastIndex + 1) this.holes += 1;
        this.lastIndex = index;
      }
    });
    socket.on('close', (code) => (this.closedWith = code));
  }

  closedWith: number | null = null;

  close(): void {
    this.#socket.terminate();
  }
}

const bridge = await BridgeProcess.start(SENSORS, 'by-hand');
const screens: CountingScreen[] = [];
for (let at = 0; at < SCREENS; at += 1) screens.push(await CountingScreen.open(bridge.url));

const rssMb: number[] = [];
const beganMs = performance.now();
console.log('data h   wall s   RSS MB   heap MB   handles   loop p99 ms   record MB');
const minutes = Math.round(hours * 60);
for (let minute = 1; minute <= minutes; minute += 1) {
  bridge.minute();
  const wanted = SENSORS + minute * READINGS_A_MINUTE;
  while (screens.some(({ lastIndex, closedWith }) => lastIndex < wanted && closedWith === null))
    await new Promise((resolve) => setTimeout(resolve, 5));
  if (minute % 60 === 0 || minute === minutes) await printState(minute / 60);
}
await end();

async function printState(hour: number): Promise<void> {
  const { rss, heapUsed, handles, p99Ms } = await bridge.state();
  rssMb.push(rss / MB);
  const wallS = (performance.now() - beganMs) / 1000;
  const cells = [
    hour.toFixed(2).padStart(6),
    wallS.toFixed(0).padStart(8),
    (rss / MB).toFixed(0).padStart(8),
    (heapUsed / MB).toFixed(0).padStart(9),
    String(handles).padStart(9),
    p99Ms.toFixed(1).padStart(13),
    (bridge.recordBytes / MB).toFixed(1).padStart(11),
  ];
  console.log(cells.join(' '));
}

async function end(): Promise<void> {
  const heard = screens.map(({ lastIndex }) => lastIndex);
  const holes = screens.reduce((sum, screen) => sum + screen.holes, 0);
  const dropped = screens.filter(({ closedWith }) => closedWith !== null).length;
  for (const screen of screens) screen.close();
  const wallS = (performance.now() - beganMs) / 1000;
  const { delivered, lost } = await bridge.stop();
  const bytes = bridge.terminal;
  console.log(
    `${hours} h of data time in ${wallS.toFixed(0)} s of wall time (${((hours * 3600) / wallS).toFixed(1)} times as fast).`,
  );
  console.log(
    `${delivered} readings delivered; ${lost} of them missing or changed in the record; ` +
      `the screens heard ${Math.min(...heard)} to ${Math.max(...heard)}, ${holes} holes, ${dropped} dropped.`,
  );
  console.log(`Memory from the second hour on: ${slope(rssMb.slice(1))}.`);
  if (bytes !== '') console.log(`Its terminal: ${bytes.slice(0, 2000)}`);
  process.exit(lost === 0 && holes === 0 && dropped === 0 ? 0 : 1);
}

/** A straight line through what was seen each hour. */
function slope(values: readonly number[]): string {
  if (values.length < 3) return 'too short to tell';
  const middle = (values.length - 1) / 2;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const above = values.reduce((sum, value, at) => sum + (at - middle) * (value - mean), 0);
  const below = values.reduce((sum, _, at) => sum + (at - middle) ** 2, 0);
  return `${(above / below).toFixed(2)} MB an hour`;
}
