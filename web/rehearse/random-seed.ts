/** Draws a job's number. */
import { seedFromRandom } from './job-cards.ts';

export function randomSeed(): number {
  return seedFromRandom(crypto.getRandomValues(new Uint32Array(1))[0] ?? 1);
}
