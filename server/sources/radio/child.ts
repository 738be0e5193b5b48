/**
 * The process that holds the radio, started by `radio-process.ts`. It can be ended and started
 * again at any time: the host libraries have states from which only that brings them back.
 */
import { Central } from './central.ts';
import { loadHostLibrary } from './load-host-library.ts';
import { isMalformedPacket, MalformedPackets } from './malformed-packet.ts';
import { toRadioSchema, type FromRadio, type RadioEnd } from './messages.ts';
import type { RadioTiming } from './timing.ts';

/** Should the channel not take the last words, the process ends all the same. */
const LAST_WORDS_MS = 500;

let central: Central | null = null;
let chosen: readonly string[] = [];
const malformed = new MalformedPackets((text) => send({ type: 'log', text }));

process.once('disconnect', () => process.exit());
process.on('uncaughtException', (error) => {
  if (isMalformedPacket(error)) malformed.note(error);
  else crash('uncaught exception', error);
});
process.on('unhandledRejection', (error) => crash('unhandled rejection', error));
process.on('message', (message) => {
  const order = toRadioSchema.parse(message);
  if (order.type === 'ping') send({ type: 'pong' });
  else if (order.type === 'begin') void begin(order.timing);
  else if (order.type === 'choose') choose(order.sensorIds);
  else if (order.type === 'fetch')
    central?.fetch(order.sensorId, { from: order.from, to: order.to });
  else if (central === null) leave('stopped', '');
  else void central.stop();
});
// Says from when on signs of life can be expected.
send({ type: 'pong' });

/** May come before the library is loaded. */
function choose(sensorIds: readonly string[]): void {
  chosen = sensorIds;
  central?.choose(chosen);
}

async function begin(timing: RadioTiming): Promise<void> {
  const loaded = await loadHostLibrary();
  if (!loaded.ok) {
    leave(loaded.problem, loaded.detail);
    return;
  }
  send({ type: 'log', text: `host library: ${loaded.name}` });
  central = new Central({ host: loaded.library, timing, report: send });
  central.choose(chosen);
  // A Ctrl+C in the terminal reaches this process too, but the bridge decides when it ends. The
  // libraries end the process on SIGINT unless somebody listens after them.
  setImmediate(() => process.on('SIGINT', () => undefined));
  const { why, detail } = await central.ended;
  leave(why, detail);
}

function send(message: FromRadio): void {
  if (process.connected) process.send?.(message);
}

function leave(why: RadioEnd, detail: string): void {
  exitAfter({ type: 'end', why, detail }, 0);
}

function crash(what: string, error: unknown): void {
  const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
  exitAfter({ type: 'log', text: `${what}: ${text}` }, 1);
}

function exitAfter(message: FromRadio, code: number): void {
  setTimeout(() => process.exit(code), LAST_WORDS_MS);
  if (process.connected) process.send?.(message, undefined, {}, () => process.exit(code));
  else process.exit(code);
}
