/**
 * A bridge in a process of its own with sensors that never miss a beat, for what must not be in the process that
 * torments it: its memory, its event loop, and how it ends. It talks with who started it by the process's own channel.
 */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { z } from 'zod';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { runBridge } from './running-bridge.ts';
import { SteadySensors } from './steady-sensors.ts';

setFlagsFromString('--expose-gc');
const collectGarbage = z.function().parse(runInNewContext('gc'));
const [count = '8', pace = 'live'] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), 'steady-'));
const sensors = new SteadySensors(Number(count), pace === 'by-hand');
const bridge = await runBridge({ sensors, dataFolder: folder });
const delay = monitorEventLoopDelay({ resolution: 5 });
delay.enable();
// The recording is there before anybody asks for it.
if (pace === 'by-hand') sensors.deliver();
while (sensors.delivered < 1) await setTimeout(20);

const say = (message: object): void => void process.send?.(message);
process.on('message', (asked) => {
  if (asked === 'state' || asked === 'state-without-garbage') {
    if (asked === 'state-without-garbage') collectGarbage();
    const { rss, heapUsed, external, arrayBuffers } = process.memoryUsage();
    const p99Ms = delay.percentile(99) / 1e6;
    delay.reset();
    const handles = process.getActiveResourcesInfo().length;
    const memory = { rss, heapUsed, external, arrayBuffers };
    say({ kind: 'state', ...memory, p99Ms, handles, delivered: sensors.delivered });
  }
  if (asked === 'minute') void deliverMinute();
  if (asked === 'stop') void stop();
});
// Whoever started it is gone.
process.on('disconnect', () => process.exit());
say({ kind: 'ready', url: bridge.url, dataFolder: folder });

async function stop(): Promise<void> {
  await sensors.stop();
  await bridge.stop();
  say({ kind: 'stopped', delivered: sensors.delivered });
  process.disconnect();
}

/** Of data time: what a minute of it brings, tick by tick, so that each may have its own commit as it would live. */
async function deliverMinute(): Promise<void> {
  for (let tick = 0; tick < 600; tick += 1) {
    sensors.deliver();
    await setTimeout(1);
  }
}
