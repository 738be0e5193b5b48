/** Why a sensor gives no number, or one to be taken with care. */
import type { Condition } from '../../protocol/reading.ts';
import type { Speech } from './speech.ts';

export function sayCondition(condition: Condition, { wording }: Speech): string {
  return wording.reading.conditions[condition];
}
