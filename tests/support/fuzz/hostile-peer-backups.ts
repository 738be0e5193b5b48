/** Throws harmed copies of a running bridge's own record at it. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { RECORD_MEDIA_TYPE } from '../../../protocol/restored.ts';
import type { SchemaValues } from './from-schema.ts';
import type { Answers } from './hostile-peer.ts';
import { mutateBackup } from './mutated-backup.ts';

/** Whatever takes longer hangs. */
const HANG_MS = 60_000;

export async function tormentByBackups(
  url: string,
  count: number,
  values: SchemaValues,
): Promise<Answers> {
  const answers: Answers = { byStatus: new Map(), faults: [] };
  const folder = mkdtempSync(join(tmpdir(), 'harmed-'));
  const file = join(folder, 'backup.sqlite');
  const sound = await (await fetch(new URL('api/backup', url))).bytes();
  for (let left = count; left > 0; left -= 1) {
    writeFileSync(file, sound);
    const how = mutateBackup(file, values);
    try {
      const answer = await fetch(new URL('api/restore', url), {
        method: 'POST',
        headers: { 'content-type': RECORD_MEDIA_TYPE },
        body: readFileSync(file),
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
