/** Several holds of a job as a short list. */
import type { Estimate } from '../analysis/conclusions.ts';
import type { HoldNumbers } from '../analysis/numbers.ts';
import type { NumberGroup } from './number-row.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { sayReading } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** Null where there is but one: the verdict tells it whole. */
export function listHolds(holds: readonly HoldNumbers[], speech: Speech): NumberGroup | null {
  if (holds.length < 2) return null;
  const words = speech.wording.numbers.holds;
  return {
    title: words.title,
    rows: holds.map((hold, at) => ({
      name: words.hold({ number: String(at + 1), at: sayMoment(hold.fromS) }),
      value: sayHold(hold, speech),
    })),
    notes: [words.note],
  };
}

/** 'from 217 micron to 771 micron in 10 min'. */
export function sayRose(
  startPa: Estimate | null,
  endPa: Estimate | null,
  heldS: number,
  speech: Speech,
): string {
  return speech.wording.numbers.holds.rose({
    from: sayReading(startPa, speech),
    to: sayReading(endPa, speech),
    length: sayDuration(heldS),
  });
}

/** 'pumped 12 min before; from 251 micron to 480 micron in 10 min; a repeat hold'. */
function sayHold(hold: HoldNumbers, speech: Speech): string {
  const words = speech.wording.numbers.holds;
  return [
    words.pumpedBefore({ length: sayDuration(hold.pumpedS) }),
    sayRose(hold.startPa, hold.endPa, hold.toS - hold.fromS, speech),
    ...(hold.repeats ? [words.repeat] : []),
    ...(hold.isolationSure ? [] : [words.pumpMayPull]),
  ].join('; ');
}
