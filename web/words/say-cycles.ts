/** Evacuations with nitrogen between them, in words. */
import type { TriplePlan } from '../../protocol/triple-plan.ts';
import { saySetting } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** On the job sheet: '4500 micron, 4500 micron, 500 micron'. */
export function sayTriplePlan({ cycles }: TriplePlan, speech: Speech): string {
  if (cycles.length === 0) return speech.wording.sheet.notEntered;
  return cycles.map(({ targetPa }) => saySetting(targetPa, speech)).join(', ');
}
