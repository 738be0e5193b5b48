/** What is in a record of invented readings, and what is wrong with it. */
import { z } from 'zod';
import { openForWriting } from '../../server/record/open-database.ts';
import { ChainVerifier } from '../../server/record/verify-chain.ts';
import { invented } from './invented-reading.ts';

export interface Inspected {
  readonly readings: number;
  /** In words; empty where all is well. */
  readonly harm: readonly string[];
  /** Of each recording. */
  readonly lastIndexes: ReadonlyMap<number, number>;
}

const READINGS = `SELECT recording_id, reading_index, channel, boot, sequence, uptime_ms, arrived_s, elapsed_s,
  pressure_pa, temperature_c, condition FROM reading ORDER BY recording_id, reading_index`;
const row = z.array(z.union([z.number(), z.string(), z.null()]));

/** Opens it as the recorder does, which takes up what the last writer left behind. */
export function inspect(dataFolder: string): Inspected {
  const database = openForWriting(dataFolder);
  try {
    const harm: string[] = [];
    const integrity = database.pragma('integrity_check', { simple: true });
    if (integrity !== 'ok') harm.push(String(integrity));
    const lastIndexes = new Map<number, number>();
    let readings = 0;
    for (const found of database.prepare(READINGS).raw().iterate()) {
      const [recordingId, index, ...values] = row.parse(found);
      const last = lastIndexes.get(Number(recordingId)) ?? 0;
      const is = JSON.stringify([index, ...values]);
      const should = JSON.stringify(inventedRow(last + 1));
      if (is !== should) harm.push(`reading ${is} of recording ${recordingId} is not ${should}`);
      lastIndexes.set(Number(recordingId), last + 1);
      readings += 1;
    }
    const verifier = new ChainVerifier(database);
    const ids = database.prepare('SELECT id FROM recording ORDER BY id').pluck().all();
    for (const id of z.array(z.int()).parse(ids)) {
      const steps = verifier.verify(id);
      let step = steps.next();
      while (step.done !== true) step = steps.next();
      const { broken } = step.value.verified;
      if (broken !== null) harm.push(`recording ${id}: ${JSON.stringify(broken)}`);
    }
    return { readings, harm, lastIndexes };
  } finally {
    database.close();
  }
}

function inventedRow(index: number): (string | number | null)[] {
  const { channel, boot, sequence, uptimeMs, arrivedS, elapsedS, ...rest } = invented(index);
  const { pressurePa, temperatureC, condition } = rest;
  const place = [index, channel, boot, sequence, uptimeMs, arrivedS, elapsedS];
  return [...place, pressurePa, temperatureC, condition];
}
