/** What a debrief found, in words. */
import type { PressureUnit } from '../../protocol/units.ts';
import type { Finding, Grade } from '../analysis/finding.ts';
import { sayMoment, sayRoughDuration } from './say-duration.ts';
import { MARK_BUTTONS } from './say-mark.ts';
import { saySetting } from './say-pressure.ts';

export const GRADE_NAMES: Readonly<Record<Grade, string>> = {
  well: 'Well done',
  early: 'Too early',
  late: 'Late',
  missed: 'Missed',
};

export function sayFinding(finding: Finding, unit: PressureUnit): string {
  const at = finding.atS === null ? '' : ` at ${sayMoment(finding.atS)}`;
  const deep = finding.pressurePa === null ? '' : `, at ${saySetting(finding.pressurePa, unit)}`;
  const lasted = finding.lastedS === null ? '' : ` (${sayRoughDuration(finding.lastedS)})`;
  const cure = finding.cure === null ? '' : `: ${MARK_BUTTONS[finding.cure].toLowerCase()}`;
  switch (finding.kind) {
    case 'right_call':
      return `The call was right${at}.`;
    case 'half_right_call':
      return `The call was half right${at}: there was leak as well as moisture, or only one of them.`;
    case 'wrong_call':
      return `The call was wrong${at}.`;
    case 'sure_and_wrong':
      return `The call was wrong${at}, and you were sure of it. Say how sure you can be, not how sure you feel.`;
    case 'no_call':
      return 'No call was made.';
    case 'called_before_it_told':
      return `Called${at}, before the curve could tell. A guess, right or wrong.`;
    case 'called_in_time':
      return `Called${at}, when the curve had told, and in good time.`;
    case 'called_long_after':
      return `Called${at}, long after the curve had told.`;
    case 'never_pumped':
      return 'The pump was never switched on.';
    case 'ballast_closed_in_time':
      return `Ballast closed${at}${deep}: the right moment.`;
    case 'ballast_closed_too_early':
      return `Ballast closed${at}${deep}: while there was still vapour to carry out.`;
    case 'ballast_closed_late':
      return `Ballast closed${at}${deep}: it had held the pump up for a while.`;
    case 'ballast_left_open':
      return 'The ballast stayed open: no pump gets deep like that.';
    case 'isolated_at_depth':
      return `Valved off${at}${deep}: deep enough.`;
    case 'isolated_where_it_levelled_off':
      return `Valved off${at}${deep}, where it had levelled off: the hold tells why.`;
    case 'isolated_above_depth':
      return `Valved off${at}${deep}, while it was still falling.`;
    case 'valved_off_at_the_limit':
      return `Valved off${at}${deep}: at the limit itself the hold fails at once.`;
    case 'valved_off_before_pump_stopped':
      return `Valved off${at} before the pump stopped.`;
    case 'pump_stopped_before_valve_off':
      return `The pump stopped${at} with the valve open: oil is drawn back like that.`;
    case 'never_held':
      return 'The valve was never shut: without a hold nothing is proved.';
    case 'hold_long_enough':
      return `The hold was long enough${lasted}.`;
    case 'hold_failed_before_its_end':
      return `The hold was ended above its limit${lasted}: the rest would have added nothing.`;
    case 'hold_too_short':
      return `The hold was too short${lasted}.`;
    case 'cure_tried':
      return `What cures it was tried${at}${cure}.`;
    case 'other_cure_tried':
      return `Something else was tried${at}${cure}.`;
  }
}
