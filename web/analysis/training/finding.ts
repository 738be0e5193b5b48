/** What a debrief finds, as data without wording. */
import type { MarkKind } from '../../../protocol/mark.ts';

/** `early` and `late`: the right thing at the wrong time; `missed`: not done, or not seen. */
export type Grade = 'well' | 'early' | 'late' | 'missed';

export type FindingKind =
  | 'right_call'
  | 'half_right_call' // leak or moisture of a system that had both, or the other way round
  | 'wrong_call'
  | 'sure_and_wrong'
  | 'no_call'
  | 'called_before_it_told' // a guess, right or wrong
  | 'called_in_time'
  | 'called_long_after'
  | 'never_pumped'
  | 'ballast_closed_in_time'
  | 'ballast_closed_too_early'
  | 'ballast_closed_late'
  | 'ballast_left_open'
  | 'isolated_at_depth'
  | 'isolated_where_it_levelled_off' // it would not have come to the depth: the hold tells why
  | 'isolated_above_depth' // while it was still falling
  | 'valved_off_at_the_limit' // the same, at the limit that the hold has to keep, or above it
  | 'valved_off_before_pump_stopped'
  | 'pump_stopped_before_valve_off'
  | 'never_held'
  | 'hold_long_enough'
  | 'hold_failed_before_its_end' // above the limit already: the rest of it would add nothing
  | 'hold_too_short'
  | 'cure_tried' // what would cure the cause
  | 'other_cure_tried';

export interface Finding {
  readonly kind: FindingKind;
  readonly grade: Grade;
  /** When, data time, s; null where it is about no one moment. */
  readonly atS: number | null;
  /** The pressure at that moment, where it matters and the sensor knew one. */
  readonly pressurePa: number | null;
  /** How long a hold lasted, s. */
  readonly lastedS: number | null;
  /** Which cure was tried. */
  readonly cure: MarkKind | null;
}

export function finding(
  kind: FindingKind,
  grade: Grade,
  more: Partial<Omit<Finding, 'kind' | 'grade'>> = {},
): Finding {
  return { kind, grade, atS: null, pressurePa: null, lastedS: null, cure: null, ...more };
}
