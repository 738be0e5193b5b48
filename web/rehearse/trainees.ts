/** Who has made calls, the latest first: pure. */
import type { RehearsalResult } from '../../protocol/api.ts';

export function traineesOf(results: readonly Pick<RehearsalResult, 'trainee'>[]): string[] {
  return [...new Set(results.map(({ trainee }) => trainee))];
}
