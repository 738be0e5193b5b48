/** A recorder that is killed at any moment has lost nothing that it said was durable. `npm run bench` kills more. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { SeededRandom } from '../../simulators/physics/seeded-random.ts';
import { killRounds } from './kill-rounds.ts';

const KILLS = 8;
/** Sixteen processes begin one after the other: on a busy machine that takes its time. */
const PATIENCE_MS = 120_000;

test(
  'killed at random moments, it keeps what it said, and each link of its chain',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'kill-'));
    const random = new SeededRandom(5);
    const found = await killRounds(join(folder, 'record'), KILLS, () => random.uniform());
    rmSync(folder, { recursive: true, force: true });
    expect(found).toMatchObject({ kills: KILLS, lost: 0, unsound: 0, harm: [] });
    expect(found.acknowledged).toBeGreaterThan(KILLS * 8);
  },
  PATIENCE_MS,
);
