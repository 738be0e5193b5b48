/** Whether a pump pulls on the system: pure. */
import type { Conclusions } from '../analysis/conclusions.ts';

export function isPumping({ stage }: Conclusions): boolean {
  return stage.name === 'pull_down' || stage.name === 'at_depth';
}
