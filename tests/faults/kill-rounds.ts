/** Kills a recorder at random moments, on one growing record, and looks each time at what is left. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { inspect, type Inspected } from './inspect-record.ts';

export const CHILD = fileURLToPath(new URL('recording-child.ts', import.meta.url));
export const LOADER = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
/** It lives at least so long after its first durable reading, and at most so much longer, ms. */
const LONGEST_LIFE_MS = 700;

export interface KillResult extends Inspected {
  readonly kills: number;
  /** Readings that were said to be durable. */
  readonly acknowledged: number;
  /** Of those, how many were not there afterwards or not as they were handed over. */
  readonly lost: number;
  /** Times that the database did not open, or was not whole. */
  readonly unsound: number;
}

/** @param random evenly from 0 to 1 */
export async function killRounds(
  dataFolder: string,
  kills: number,
  random: () => number,
): Promise<KillResult> {
  const last = new Map<number, number>();
  let lost = 0;
  let unsound = 0;
  let inspected: Inspected = { readings: 0, harm: [], lastIndexes: new Map() };
  for (let kill = 0; kill < kills; kill += 1) {
    for (const [recordingId, index] of await lifeOf(dataFolder, random() * LONGEST_LIFE_MS))
      last.set(recordingId, index);
    inspected = inspectCopy(dataFolder);
    if (inspected.harm.length > 0) unsound += 1;
    for (const [recordingId, index] of last)
      lost += Math.max(0, index - (inspected.lastIndexes.get(recordingId) ?? 0));
  }
  const acknowledged = [...last.values()].reduce((sum, index) => sum + index, 0);
  return { ...inspected, kills, acknowledged, lost, unsound };
}

/** The next recorder finds what the killed one left, and not what looking at it has mended. */
function inspectCopy(dataFolder: string): Inspected {
  const copy = `${dataFolder}-copy`;
  try {
    cpSync(dataFolder, copy, { recursive: true });
    return inspect(copy);
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

/** @returns of each recording the last reading that was said to be durable before the end */
async function lifeOf(dataFolder: string, lifeMs: number): Promise<Map<number, number>> {
  const child = spawn(process.execPath, ['--import', LOADER, CHILD, dataFolder], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => (said += text));
  const closed = once(child, 'close');
  const heard = await Promise.race([once(child.stdout, 'data'), closed.then(() => null)]);
  if (heard === null) throw new Error('the recorder ended before it had recorded anything');
  await setTimeout(lifeMs);
  child.kill('SIGKILL');
  await closed;
  const last = new Map<number, number>();
  for (const line of said.split('\n').slice(0, -1)) {
    const [recordingId, index] = line.split(' ').map(Number);
    if (recordingId !== undefined && index !== undefined) last.set(recordingId, index);
  }
  return last;
}
