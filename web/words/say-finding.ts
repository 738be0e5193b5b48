/** What a debrief found, as sentences. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { PressureUnit } from '../../protocol/units.ts';
import type { Finding, FindingKind, Grade } from '../analysis/finding.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { sayPressure } from './say-pressure.ts';

export const GRADE_WORDS: Readonly<Record<Grade, string>> = {
  well: 'Well done',
  early: 'Too early',
  late: 'Too late',
  missed: 'Missed',
};

/** The order in which they are read. */
export const GRADES: readonly Grade[] = ['well', 'early', 'late', 'missed'];

const SENTENCES: Readonly<Record<FindingKind, string>> = {
  right_call: 'The call named the cause.',
  half_right_call: 'The call was half of it: leak and moisture are told apart by the whole hold.',
  wrong_call: 'The call named another cause.',
  sure_and_wrong: 'The call named another cause, and was sure of it.',
  no_call: 'No call was made.',
  called_before_it_told: 'Called before the curve could tell: a guess, right or wrong.',
  called_in_time: 'Called once the curve had told, and without waiting long.',
  called_long_after: 'Called long after there was nothing more to learn.',
  never_pumped: 'The pump was never started.',
  ballast_closed_in_time: 'Gas ballast closed in time.',
  ballast_closed_too_early: 'Gas ballast closed while the pump still needed it.',
  ballast_closed_late: 'Gas ballast closed long after its work was done.',
  ballast_left_open: 'Gas ballast left open: with it the pump comes to no depth.',
  isolated_at_depth: 'Valved off at the depth.',
  isolated_where_it_levelled_off:
    'Valved off where it had levelled off: there the hold tells more than pumping on.',
  isolated_above_depth: 'Valved off above the depth, while it was still falling.',
  valved_off_at_the_limit:
    'Valved off at or above the limit that the hold has to keep: it could only fail.',
  valved_off_before_pump_stopped: 'Valved off before the pump was stopped.',
  pump_stopped_before_valve_off: 'Pump stopped with the valve open: oil is drawn back so.',
  never_held: 'There was no hold. Without one nobody can say tight.',
  hold_long_enough: 'The hold ran its full length.',
  hold_failed_before_its_end:
    'The hold was over its limit: the rest of it would have added nothing.',
  hold_too_short: 'The hold ended before its time.',
  cure_tried: 'goes to the cause, or to its place.',
  other_cure_tried: 'does nothing about this cause.',
};

const CURE_NAMES: Partial<Readonly<Record<MarkKind, string>>> = {
  nitrogen_break: 'A nitrogen break',
  cores_out: 'Taking the cores out',
  oil_changed: 'Changing the oil',
  battery_changed: 'Changing the battery',
  joints_tightened: 'Tightening the joints',
  sections_opened: 'Opening the inner valves',
  stub_shut: 'Shutting the sensor off on its stub',
};

export function sayFinding(finding: Finding, unit: PressureUnit): string {
  const { kind, cure, pressurePa, lastedS } = finding;
  const sentence = SENTENCES[kind];
  const cureName = cure === null ? undefined : CURE_NAMES[cure];
  const said = cureName === undefined ? sentence : `${cureName} ${sentence}`;
  const figures = [
    ...(lastedS === null ? [] : [sayDuration(lastedS)]),
    ...(pressurePa === null ? [] : [sayPressure(pressurePa, unit)]),
  ];
  return figures.length === 0 ? said : `${said.replace(/\.$/u, '')} (${figures.join(', ')}).`;
}

/** @param originS data time from which moments are counted */
export function sayFindingMoment({ atS }: Finding, originS: number): string | null {
  return atS === null ? null : sayMoment(atS - originS);
}
