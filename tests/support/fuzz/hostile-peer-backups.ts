/** Throws harmed copies of a running bridge's own record at it. */
import { mkdtempSync, openAsBlob, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { RECORD_MEDIA_TYPE } from '../../../protocol/restored.ts';
import type { SchemaValues } from './from-schema.ts';
import type { Answers } from './hostile-peer.ts';
import { mutateBackup } from './mutated-backup.ts';

/** Whatever takes longer hangs. */
const HANG_MS = 60_000;
/** The record of an hour of sensors, with all that a hundred thousand inputs bring, is a tenth of it. */
const MOST_SOUND_BYTES = 256 * 2 ** 20;
/** One harmed cell is the most that is added to it. */
const MOST_ADDED_BYTES = 64 * 2 ** 20;

export async function tormentByBackups(
  url: string,
  count: number,
  values: SchemaValues,
): Promise<Answers> {
  const answers: Answers = { byStatus: new Map(), faults: [] };
  const folder = mkdtempSync(join(tmpdir(), 'harmed-'));
  const file = join(folder, 'backup.sqlite');
  const sound = await (await fetch(new URL('api/backup', url))).bytes();
  if (sound.length > MOST_SOUND_BYTES) answers.faults.push(`a record of ${sound.length} bytes`);
  for (let left = count; left > 0; left -= 1) {
    writeFileSync(file, sound);
    const how = mutateBackup(file, values);
    const { size } = statSync(file);
    if (size > sound.length + MOST_ADDED_BYTES) throw new Error(`${how}: a file of ${size} bytes`);
    try {
      const answer = await fetch(new URL('api/restore', url), {
        method: 'POST',
        headers: { 'content-type': RECORD_MEDIA_TYPE },
        body: await openAsBlob(file),
        signal: AbortSignal.timeout(HANG_MS),
      });
      answers.byStatus.set(answer.status, (answers.byStatus.get(answer.status) ?? 0) + 1);
      if (answer.status >= 500) answers.faults.push(`${how}: ${await answer.text()}`);
      else await answer.text();
    } catch (error) {
      answers.faults.push(`${how}: ${String(error)}`);
    }
  }
  rmSync(folder, { recursive: true, force: true });
  return answers;
}
