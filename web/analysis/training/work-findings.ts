/** What there is to say of how a trainee worked pump and valves. */
import type { RehearsalCause } from '../../../protocol/api.ts';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { firstHeldBelowS } from '../readings/depth.ts';
import type { History } from '../readings/history.ts';
import { samplesFromBins } from '../readings/samples.ts';
import { presentPressurePa, relativeRatePerS } from '../readings/trend.ts';
import type { Hold } from '../stages/holds.ts';
import { finding, type Finding } from './finding.ts';

/** Common practice, no source: the ballast is closed at 3000 micron or when boil-off ends. */
const CLOSE_BALLAST_PA = paFromMicron(3000);
/** Nobody hits that to the micron, or within minutes: settings of ours. */
const CLOSE_BALLAST_SHARE = 1.1;
const CLOSE_BALLAST_WITHIN_S = 600;
/** A depth counts as reached within this: a sensor’s noise and a hand’s delay. */
const DEPTH_SHARE = 1.05;
/** At the limit: so near to it that a small rise ends the hold. */
const LIMIT_SHARE = 0.9;
/** Falling faster than 3 % a minute, a curve has not levelled off: a setting of ours. */
const FALLING_PER_S = -0.03 / 60;
/** What is looked at before a moment, s. */
const BEFORE_S = 120;

/** What cures a cause or finds its place, of what one can do to a rig and does not do in every job. */
const CURES: Readonly<Record<RehearsalCause, readonly MarkKind[]>> = {
  in_order: [],
  moisture: ['nitrogen_break'],
  leak: ['nitrogen_break', 'joints_tightened'],
  leak_and_moisture: ['nitrogen_break', 'joints_tightened'],
  gear_leak: ['nitrogen_break', 'joints_tightened', 'stub_shut'],
  charged_side: [],
  refrigerant: ['nitrogen_break'],
  pump_or_oil: ['oil_changed'],
  ballast_open: [],
  narrow_way: ['cores_out'],
  sensor_place: [],
  part_shut_off: ['sections_opened'],
  battery: ['battery_changed'],
  radio: [],
};
const WET: readonly RehearsalCause[] = ['moisture', 'leak_and_moisture'];
/** A wet system that levels off higher than this is boiling, and comes down when that is over. */
const BOILING_PA = paFromMicron(1000);
/** Done to cure something; the rest belongs to every job. */
const TRIALS: readonly MarkKind[] = [
  'oil_changed',
  'battery_changed',
  'joints_tightened',
  'nitrogen_break',
  'sections_opened',
  'stub_shut',
  'cores_out',
];

export interface Work {
  readonly history: History;
  /** In order of time. */
  readonly marks: readonly Mark[];
  readonly holds: readonly Hold[];
  readonly sheet: Pick<Sheet, 'isolateAtPa' | 'endLimitPa' | 'holdS'>;
  readonly cause: RehearsalCause;
  readonly ballastOpenAtStart: boolean;
  /** Data time of the last reading. */
  readonly endS: number;
}

export function workFindings(work: Work): Finding[] {
  const pumpedS = firstOf(work.marks, 'pump_on');
  if (pumpedS === null) return [finding('never_pumped', 'missed')];
  return [
    ...ballast(work, pumpedS),
    ...work.holds.map((hold) => isolation(work, hold)),
    ...pumpStops(work.marks),
    longestHold(work),
    ...cures(work),
  ];
}

function ballast(work: Work, pumpedS: number): Finding[] {
  if (!work.ballastOpenAtStart) return [];
  const untilS = work.holds[0]?.fromS ?? work.endS;
  const pumped = samplesFromBins(work.history.bins(pumpedS, untilS));
  const dueS = firstHeldBelowS(pumped, CLOSE_BALLAST_PA);
  const atS = firstOf(work.marks, 'ballast_closed');
  if (atS === null || atS > untilS) {
    return dueS === null ? [] : [finding('ballast_left_open', 'missed', { atS: untilS })];
  }
  const { pressurePa, falling } = at(work.history, atS);
  const about = { atS, pressurePa };
  const high = pressurePa === null || pressurePa > CLOSE_BALLAST_PA * CLOSE_BALLAST_SHARE;
  // A dry rig that levels off so high is not waiting for water to boil off.
  if (high && (falling || WET.includes(work.cause))) {
    return [finding('ballast_closed_too_early', 'early', about)];
  }
  return dueS !== null && atS > dueS + CLOSE_BALLAST_WITHIN_S
    ? [finding('ballast_closed_late', 'late', about)]
    : [finding('ballast_closed_in_time', 'well', about)];
}

function isolation({ history, sheet, cause }: Work, { fromS: atS }: Hold): Finding {
  const { pressurePa, falling } = at(history, atS);
  const about = { atS, pressurePa };
  if (pressurePa !== null && pressurePa <= sheet.isolateAtPa * DEPTH_SHARE) {
    return finding('isolated_at_depth', 'well', about);
  }
  const boiling = WET.includes(cause) && (pressurePa ?? Infinity) > BOILING_PA;
  if (!falling && !boiling) return finding('isolated_where_it_levelled_off', 'well', about);
  return pressurePa !== null && pressurePa < sheet.endLimitPa * LIMIT_SHARE
    ? finding('isolated_above_depth', 'early', about)
    : finding('valved_off_at_the_limit', 'early', about);
}

/** Oil is drawn back into a system that is open to a standing pump. */
function pumpStops(marks: readonly Mark[]): Finding[] {
  let open = true;
  const found: Finding[] = [];
  for (const { kind, elapsedS: atS } of marks) {
    if (kind === 'isolated' || kind === 'nitrogen_break') open = false;
    if (kind === 'reopened') open = true;
    if (kind !== 'pump_off') continue;
    found.push(
      open
        ? finding('pump_stopped_before_valve_off', 'early', { atS })
        : finding('valved_off_before_pump_stopped', 'well', { atS }),
    );
  }
  return found;
}

function longestHold({ history, holds, sheet }: Work): Finding {
  const [hold] = [...holds].sort((a, b) => b.toS - b.fromS - (a.toS - a.fromS));
  if (!hold) return finding('never_held', 'missed');
  const lastedS = hold.toS - hold.fromS;
  const { pressurePa } = at(history, hold.toS);
  const about = { atS: hold.toS, pressurePa, lastedS };
  if (lastedS >= sheet.holdS) return finding('hold_long_enough', 'well', about);
  return pressurePa !== null && pressurePa > sheet.endLimitPa
    ? finding('hold_failed_before_its_end', 'well', about)
    : finding('hold_too_short', 'early', about);
}

function cures({ marks, cause }: Work): Finding[] {
  return marks.flatMap(({ kind, elapsedS: atS }) => {
    if (!TRIALS.includes(kind)) return [];
    return CURES[cause].includes(kind)
      ? [finding('cure_tried', 'well', { atS, cure: kind })]
      : [finding('other_cure_tried', 'missed', { atS, cure: kind })];
  });
}

/** The pressure just before a moment, and whether it was still coming down; unknown counts as falling. */
function at(history: History, atS: number) {
  const before = samplesFromBins(history.bins(atS - BEFORE_S, atS));
  const rate = relativeRatePerS(before, atS);
  return {
    pressurePa: presentPressurePa(before, atS),
    falling: rate === null || rate < FALLING_PER_S,
  };
}

function firstOf(marks: readonly Mark[], kind: MarkKind): number | null {
  return marks.find((mark) => mark.kind === kind)?.elapsedS ?? null;
}
