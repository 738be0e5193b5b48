/**
 * `npm run bench:radio`: what the radio comes to, with the timing that it has in
 * earnest, over the virtual air. About two minutes; not part of `npm run bench`, whose timings it would blur.
 */
import { fork, type ChildProcess } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { median } from 'simple-statistics';
import { z } from 'zod';
import { RADIO_TIMING } from '../../server/sources/radio/timing.ts';
import { serveController } from '../../simulators/sensor/serve-controller.ts';
import { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import { VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';
import { recordedRig } from '../support/recorded-by-radio.ts';
import { walk } from '../support/roof-walk.ts';

const WALK = { minutes: 90, hertz: 10, drops: 20, seed: 3 };
const SENSORS = 8;
const HERTZ = 10;
const MEASURED_S = 30;
/** Clock ticks per second of Linux's process statistics. */
const TICKS_PER_S = 100;

async function benchWalk(bufferDepth: number): Promise<void> {
  const setting = await recordedRig({ timing: RADIO_TIMING });
  const { rig, recorded, until } = setting;
  try {
    const { sent, away, returnedMs } = await walk(setting, { ...WALK, bufferDepth });
    await until(bufferDepth > 0 ? sent.length : sent.length - away.size, 120_000);
    const numbers = new Set(recorded.map(({ sequence }) => sequence));
    const ordered = recorded.toSorted((a, b) => a.elapsedS - b.elapsedS);
    const inOrder = ordered.every(({ sequence }, i) => sequence > (ordered[i - 1]?.sequence ?? -1));
    const missing = sent.filter(({ sequence }) => !numbers.has(sequence));
    console.log(
      `${WALK.minutes} min at ${WALK.hertz} Hz, ${WALK.drops} drops, the sensor keeps ${bufferDepth}: ` +
        `${sent.length} measured, ${away.size} of them out of reach, ${recorded.length} recorded, ` +
        `${recorded.length - numbers.size} twice, ${missing.length} missing ` +
        `(${missing.filter(({ sequence }) => !away.has(sequence)).length} that were in reach), ` +
        `in order: ${inOrder}`,
    );
    console.log(
      `  from 'back in reach' to 'live again': median ${(median([...returnedMs]) / 1000).toFixed(2)} s, ` +
        `worst ${(Math.max(...returnedMs) / 1000).toFixed(2)} s of ${returnedMs.length}`,
    );
  } finally {
    await rig.close();
  }
}

async function benchCost(): Promise<void> {
  const air = new VirtualAir();
  const served = await serveController(air.createController());
  const { environment, execArguments } = served;
  const bridge = fork(
    fileURLToPath(new URL('radio-bridge.ts', import.meta.url)),
    [JSON.stringify({ environment, execArguments })],
    { execArgv: ['--import', 'tsx'], stdio: ['ignore', 'ignore', 'inherit', 'ipc'] },
  );
  await answerOf(bridge);
  const capabilities = { intervalMs: 1000 / HERTZ };
  const sensors = Array.from(
    { length: SENSORS },
    (_, i) => new VirtualSensor(air, { name: `Sensor ${i}`, capabilities }),
  );
  const measuring = setInterval(() => {
    for (const sensor of sensors) sensor.measure(500 + 400 * Math.random());
  }, 1000 / HERTZ);
  await Promise.all(sensors.map((sensor) => sensor.whenSubscribed()));
  const before = await costOf(bridge);
  await new Promise((done) => setTimeout(done, MEASURED_S * 1000));
  const after = await costOf(bridge);
  clearInterval(measuring);
  bridge.send('end');
  await new Promise((done) => bridge.once('exit', done));
  await served.close();
  air.close();
  const percent = (from: number, to: number) => ((100 * (to - from)) / MEASURED_S).toFixed(1);
  console.log(
    `${SENSORS} sensors at ${HERTZ} Hz for ${MEASURED_S} s, of one processor: bridge ` +
      `${percent(before.bridgeS, after.bridgeS)} %, its radio process ${percent(before.radioS, after.radioS)} %`,
  );
}

const costSchema = z.object({ processorS: z.number(), radioPid: z.number() });

async function costOf(bridge: ChildProcess) {
  const answer = answerOf(bridge);
  bridge.send('cost');
  const { processorS, radioPid } = costSchema.parse(await answer);
  // After the name in brackets: user and system time are the 14th and 15th fields of proc(5).
  const fields = readFileSync(`/proc/${radioPid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
  const radioS = (Number(fields[11]) + Number(fields[12])) / TICKS_PER_S;
  return { bridgeS: processorS, radioS };
}

function answerOf(bridge: ChildProcess): Promise<unknown> {
  return new Promise((resolve) => bridge.once('message', resolve));
}

await benchWalk(3600);
await benchWalk(0);
await benchCost();
