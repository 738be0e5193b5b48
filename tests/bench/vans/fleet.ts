/**
 * As many vans as wished in one process, each on a connection of its own, publishing one reading a second. Says as JSON
 * lines on standard output when all are connected, and at the end what the broker has taken. Options: URL, authority,
 * folder of login files, vans, seconds.
 */
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { VanReadings } from '../../../protocol/van-messages.ts';
import { recordingTopic } from '../../../protocol/van-topics.ts';
import { brokerAddress } from '../../../server/vans/broker/broker-address.ts';
import { BrokerConnection } from '../../../server/vans/broker/broker-connection.ts';

const [url = '', authorityFile, loginFolder = '', vans = '0', seconds = '0'] =
  process.argv.slice(2);
const CONNECT_AT_ONCE = 20;
let taken = 0;
let failed = 0;

const connections: { van: string; connection: BrokerConnection }[] = [];
for (let at = 0; at < Number(vans); at += CONNECT_AT_ONCE) {
  const names = Array.from(
    { length: Math.min(CONNECT_AT_ONCE, Number(vans) - at) },
    (_, i) => `van-${at + i}`,
  );
  connections.push(...(await Promise.all(names.map(connected))));
}
process.stdout.write(`${JSON.stringify({ connected: connections.length })}\n`);

const before = process.cpuUsage();
await Promise.all(connections.map((one, at) => drive(one, at / connections.length)));
const { user, system } = process.cpuUsage(before);
const processorS = (user + system) / 1e6;
process.stdout.write(`${JSON.stringify({ taken, failed, processorS })}\n`);
process.exit();

async function connected(van: string) {
  const loginFile = join(loginFolder, van);
  const address = brokerAddress('--publish', { url, loginFile, authorityFile, withoutTls: false });
  const connection = await BrokerConnection.open({
    ...{ address, clientId: van, sessionS: 0, receiveMost: 20, will: null, topics: [] },
    ...{ received: () => undefined, stopping: new AbortController().signal },
  });
  return { van, connection };
}

/** Each at its own moment of the second. */
async function drive(
  { van, connection }: (typeof connections)[number],
  phase: number,
): Promise<void> {
  const beganMs = performance.now() + phase * 1000;
  const startedAtMs = Date.now();
  const key = { recordingId: 1, startedAtMs };
  const deliveries: Promise<void>[] = [];
  for (let index = 1; index <= Number(seconds); index += 1) {
    await setTimeout(Math.max(0, beganMs + (index - 1) * 1000 - performance.now()));
    const message: VanReadings = {
      ...key,
      after: index - 1,
      simulated: false,
      columns: {
        ...{ index: [index], channel: [0], boot: [1], sequence: [index] },
        // When it was sent, so that the database can tell how long it took.
        elapsedS: [(Date.now() - startedAtMs) / 1000],
        ...{ pressurePa: [50 + 1 / index], temperatureC: [20.1], condition: ['ok'] },
      },
    };
    const topic = recordingTopic(van, key, 'readings');
    deliveries.push(
      connection
        .publish({ topic, payload: JSON.stringify(message), retain: false, expiryS: null })
        .then(
          () => void (taken += 1),
          () => void (failed += 1),
        ),
    );
  }
  await Promise.all(deliveries);
}
