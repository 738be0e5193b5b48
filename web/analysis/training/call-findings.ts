/** What there is to say of a trainee's call. */
import type { Call, RehearsalCause, Reveal } from '../../../protocol/api.ts';
import type { Hold } from '../stages/holds.ts';
import { finding, type Finding } from './finding.ts';

/** From here on somebody is sure: a setting of ours. */
const SURE_PERCENT = 80;
/** So long after the end of the hold, s, nothing more was to be learnt: a setting of ours … */
const LONG_AFTER_HOLD_S = 600;
/** … and so long after the curve told, where nobody held. */
const LONG_AFTER_TOLD_S = 3600;
/** Each is half of the third. */
const HALVES: readonly RehearsalCause[] = ['leak', 'moisture'];

export interface Told {
  readonly reveal: Pick<Reveal, 'cause' | 'toldS'>;
  readonly holds: readonly Hold[];
  /** Length of a full hold, s. */
  readonly holdS: number;
}

export function callFindings(call: Call | null, told: Told): Finding[] {
  if (call === null) return [finding('no_call', 'missed')];
  return [aboutCause(call, told.reveal.cause), ...aboutTime(call, told)];
}

function aboutCause({ cause, surePercent, elapsedS: atS }: Call, truth: RehearsalCause): Finding {
  if (cause === truth) return finding('right_call', 'well', { atS });
  if (isHalf(cause, truth) || isHalf(truth, cause)) {
    return finding('half_right_call', 'missed', { atS });
  }
  return finding(surePercent >= SURE_PERCENT ? 'sure_and_wrong' : 'wrong_call', 'missed', { atS });
}

function isHalf(part: RehearsalCause, whole: RehearsalCause): boolean {
  return whole === 'leak_and_moisture' && HALVES.includes(part);
}

/** Missing readings tell of the radio, and the curve doesn't: nothing to measure a call by. */
function aboutTime({ elapsedS: atS }: Call, told: Told): Finding[] {
  if (told.reveal.cause === 'radio') return [];
  const sinceS = toldSinceS(told);
  if (sinceS === null || atS < sinceS) return [finding('called_before_it_told', 'early', { atS })];
  return [
    atS > allToldS(sinceS, atS, told)
      ? finding('called_long_after', 'late', { atS })
      : finding('called_in_time', 'well', { atS }),
  ];
}

/** That nothing is wrong is told by a full hold, and by nothing before it. */
function toldSinceS({ reveal, holds, holdS }: Told): number | null {
  if (reveal.cause !== 'in_order') return reveal.toldS;
  const full = holds.find(({ fromS, toS }) => toS - fromS >= holdS);
  return full === undefined ? null : full.fromS + holdS;
}

/** The last hold before the call may still tell causes apart; longer than that nobody need wait. */
function allToldS(sinceS: number, calledS: number, { holds, holdS }: Told): number {
  const hold = holds.findLast(({ fromS }) => fromS <= calledS);
  if (!hold) return sinceS + LONG_AFTER_TOLD_S;
  return Math.max(sinceS, Math.min(hold.toS, hold.fromS + holdS)) + LONG_AFTER_HOLD_S;
}
