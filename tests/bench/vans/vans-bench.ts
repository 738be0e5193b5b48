/**
 * `npm run bench:vans -- [VANS] [SECONDS] [SECONDS OF A BRIDGE]`: that many vans at one reading a second, by a real broker with TLS, passwords
 * and access list, into a real database that waits for its disk, all on this machine; then what publishing costs a bridge.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { z } from 'zod';
import { type TestBroker, testBroker } from '../../support/office/broker.ts';
import { type TestDatabase, testDatabase } from '../../support/office/database.ts';
import { startCollector } from '../../support/office/programs.ts';

const LOADER = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
/** Of a clock tick, as Linux reckons a process's time. */
const TICKS_PER_S = 100;
const [vans = 1000, seconds = 180, bridgeSeconds = 30] = process.argv.slice(2).map(Number);
const saidSchema = z.record(z.string(), z.number());

const names = Array.from({ length: vans }, (_, at) => `van-${at}`);
const broker = await testBroker({ users: ['office', ...names] });
const office = await testDatabase(['track_commit_timestamp=on']);
const folder = mkdtempSync(join(tmpdir(), 'bench-vans-'));
try {
  await manyVans(broker, office);
  if (bridgeSeconds > 0) await oneBridge(broker);
} finally {
  await Promise.all([broker.remove(), office.remove()]);
  rmSync(folder, { recursive: true, force: true });
}

async function manyVans(broker: TestBroker, office: TestDatabase): Promise<void> {
  for (const name of names) {
    writeFileSync(join(folder, name), `${name}\npassword-of-${name}\n`, { mode: 0o600 });
  }
  const collector = startCollector(broker, office);
  await collector.says('Collecting from');
  const fleet = started('fleet.ts', [
    ...[broker.url, broker.authorityFile, folder, String(vans), String(seconds)],
  ]);
  await fleet.next();
  const processes = {
    broker: () => processorS([broker.processId()]),
    database: () => processorS(withChildren(office.processId())),
    collector: () => processorS([collector.processId()]),
  };
  const before = Object.values(processes).map((used) => used());
  const beganMs = performance.now();
  const { taken = 0, failed = 0, processorS: ofVansS = 0 } = await fleet.next();
  const tookS = (performance.now() - beganMs) / 1000;
  const used = Object.entries(processes).map(([name, now], at) => {
    const share = (now() - (before[at] ?? 0)) / tookS;
    return `${name} ${(100 * share).toFixed(0)} %`;
  });
  const kept = await allKept(office, taken);
  const [latency = {}] = await office.rows(
    `SELECT percentile_cont(ARRAY[0.5, 0.99, 1]) WITHIN GROUP (ORDER BY took) AS "ms" FROM (
       SELECT 1000 * extract(epoch FROM pg_xact_commit_timestamp(reading.xmin)) - started_at_ms - 1000 * elapsed_s AS took
       FROM reading JOIN recording ON id = recording_id) AS each`,
  );
  const [median = 0, p99 = 0, longest = 0] = z.array(z.number()).parse(latency['ms']);
  const sequences = await office.number(
    'SELECT COUNT(*) FROM recording WHERE last_index = $1 AND last_index = (SELECT COUNT(*) FROM reading WHERE recording_id = id)',
    [seconds],
  );
  console.log(
    `${vans} vans, ${tookS.toFixed(0)} s: ${(taken / tookS).toFixed(0)} messages a second`,
  );
  console.log(
    `taken by the broker ${taken}, refused ${failed}, in the database ${kept}, lost ${taken - kept}`,
  );
  console.log(`whole sequences: ${sequences} of ${vans}`);
  console.log(
    `from sending to commit, ms: median ${median.toFixed(0)}, 99 % ${p99.toFixed(0)}, longest ${longest.toFixed(0)}`,
  );
  console.log(
    `of one processor: ${used.join(', ')}, all vans ${((100 * ofVansS) / tookS).toFixed(0)} %`,
  );
  await collector.stop();
}

/** Waits for what is still on its way, as long as any of it comes. */
async function allKept(office: TestDatabase, taken: number): Promise<number> {
  let kept = 0;
  for (let seconds = 0; seconds < 60 && kept < taken; seconds += 1) {
    const now = await office.number('SELECT COUNT(*) FROM reading');
    if (now > kept) seconds = 0;
    kept = now;
    await new Promise((resolve) => setTimeout(resolve, 1000));
  }
  return kept;
}

/** Turn by turn, so that what else the machine does meets both alike. */
async function oneBridge(broker: TestBroker): Promise<void> {
  const cost = { alone: 0, published: 0 };
  for (let round = 0; round < 3; round += 1) {
    for (const way of ['alone', 'published'] as const) {
      const published = [broker.url, broker.loginFile('van-0'), broker.authorityFile];
      const bridge = started('recording-van.ts', [
        ...[mkdtempSync(join(folder, 'data-')), String(bridgeSeconds)],
        ...(way === 'published' ? published : []),
      ]);
      const { processorS: usedS = 0 } = await bridge.next();
      cost[way] += usedS;
    }
  }
  const share = (usedS: number) => `${((100 * usedS) / (3 * bridgeSeconds)).toFixed(1)} %`;
  console.log(
    `${(cost.published / cost.alone).toFixed(2)}  processor's time of a bridge with eight sensors at 10 Hz, published / not (${share(cost.published)} and ${share(cost.alone)} of one processor)`,
  );
}

interface Started {
  /** The next line that it says. */
  next(): Promise<Record<string, number>>;
}

function started(file: string, args: readonly string[]): Started {
  const path = fileURLToPath(new URL(file, import.meta.url));
  const child = spawn(process.execPath, ['--import', LOADER, path, ...args], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let text = '';
  let ended = false;
  child.stdout.setEncoding('utf8').on('data', (said: string) => (text += said));
  child.on('close', () => (ended = true));
  const next = async (): Promise<Record<string, number>> => {
    while (!text.includes('\n')) {
      if (ended) throw new Error(`${file} ended before it said what was waited for`);
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
    const [line = '', ...rest] = text.split('\n');
    text = rest.join('\n');
    return saidSchema.parse(JSON.parse(line));
  };
  return { next };
}

/** User's and system's time of processes so far, s (Linux). */
function processorS(ids: readonly number[]): number {
  const ticks = ids.flatMap((id) => {
    const fields = statOf(id);
    return [Number(fields[11] ?? 0), Number(fields[12] ?? 0)];
  });
  return ticks.reduce((sum, one) => sum + one, 0) / TICKS_PER_S;
}

function withChildren(id: number): number[] {
  const all = readdirSync('/proc')
    .filter((name) => /^\d+$/u.test(name))
    .map(Number);
  return [id, ...all.filter((one) => Number(statOf(one)[1]) === id)];
}

/** What stands after the process's name. */
function statOf(id: number): string[] {
  try {
    return readFileSync(`/proc/${id}/stat`, 'utf8').split(') ').at(-1)?.split(' ') ?? [];
  } catch {
    return [];
  }
}
