/** Two hundred times the recorder is killed under eight sensors at 10 Hz: what is lost of what it acknowledged. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SeededRandom } from '../../simulators/physics/seeded-random.ts';
import { killRounds } from '../faults/kill-rounds.ts';

const KILLS = 200;

export async function benchKills(): Promise<{ name: string; ratio: number; detail: string }[]> {
  const folder = mkdtempSync(join(tmpdir(), 'kill-'));
  const random = new SeededRandom(1);
  const found = await killRounds(join(folder, 'record'), KILLS, () => random.uniform());
  rmSync(folder, { recursive: true, force: true });
  return [
    {
      name: `record: acknowledged readings lost / acknowledged, ${KILLS} kills under 8 sensors at 10 Hz`,
      ratio: found.lost / found.acknowledged,
      detail: `${found.lost} of ${found.acknowledged} lost; ${found.readings} recorded; ${found.unsound} times not opened whole`,
    },
  ];
}
