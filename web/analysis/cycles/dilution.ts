/**
 * What is left of the air that was there first, after evacuations with nitrogen between them: Π pᵢ/p_before.
 *
 * No evacuation takes more than this away: all that is left is taken for air, and the nitrogen for mixed with it
 * through and through, which is best. Where a dead end does not mix, more air is left in it. Of water that lies as a
 * liquid, or is held by oil and walls, this says nothing.
 */
import { STANDARD_ATMOSPHERE_PA } from '../../../protocol/units.ts';
import type { Cycle } from './evacuation-cycles.ts';

/** Null where the sensor did not see how deep one of them came. */
export function airLeftShare(
  cycles: readonly Pick<Cycle, 'endPa' | 'brokenToPa'>[],
  breakToPa: number,
): number | null {
  let share = 1;
  let beforePa = STANDARD_ATMOSPHERE_PA;
  for (const { endPa, brokenToPa } of cycles) {
    if (endPa === null) return null;
    share *= Math.min(endPa / beforePa, 1);
    beforePa = brokenToPa ?? breakToPa;
  }
  return share;
}
