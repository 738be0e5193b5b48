/** Holds that rose as if they were filled: a leak that is too fast for a rate, where nobody marked a filling. */
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import type { Stage, ToldHold } from '../conclusions.ts';
import type { StubFinding } from '../seen/stub-baseline.ts';
import type { SpellList } from '../stages/spell-list.ts';
import type { HoldAlone } from './hunt-hold.ts';

/** Two valves that are turned one after the other make no hold between. */
export const LEAST_HOLD_S = 30;
/** So many times as fast as the whole is much faster. A setting of ours. */
const MUCH_FASTER = 3;
/** What shuts a part off from the pump: what is opened may be full of air, and no leak. */
const SHUTTING: readonly MarkKind[] = ['isolated', 'stub_shut', 'sections_shut'];
const PUMPING: readonly MarkKind[] = ['pump_on', 'reopened'];
/** What lets gas in, or takes the sensor off. */
const FILLING: readonly MarkKind[] = ['nitrogen_break', 'charge_released', 'sensor_isolated'];
/** What makes something else of what the sensor sees. */
const CHANGING: readonly MarkKind[] = [
  ...(['stub_shut', 'stub_opened', 'sections_shut', 'sections_opened'] as const),
  ...(['part_seen', 'joints_tightened', 'cores_in'] as const),
];

/**
 * The curve tells no leak from a filling where it rises so fast from the valve on: a hand that marked the valve and no
 * filling has marked a hold. After a while of holding it is none of its leak.
 */
export function tooFastHolds(
  { stages }: SpellList,
  marks: readonly Mark[],
  nowS: number,
): ToldHold[] {
  const later = (kinds: readonly MarkKind[], fromS: number) =>
    marks
      .filter(({ kind, elapsedS }) => kinds.includes(kind) && elapsedS > fromS && elapsedS <= nowS)
      .reduce((firstS, { elapsedS }) => Math.min(firstS, elapsedS), Infinity);
  return stages.flatMap((filled, at) => {
    const rise = stages[at - 1];
    if (rise === undefined || !isFilledFrom(rise, filled)) return [];
    const fromS = rise.sinceS;
    const isShut = marks.some(
      ({ kind, elapsedS }) => SHUTTING.includes(kind) && elapsedS === fromS,
    );
    const before = stages.slice(0, at).findLast(({ name }) => !STILL.includes(name));
    const wasPumped = before?.name === 'pull_down' || before?.name === 'at_depth';
    if (!isShut || !wasPumped || later(FILLING, fromS) < later(PUMPING, fromS)) return [];
    const toS = Math.min(stages[at + 1]?.sinceS ?? nowS, later(CHANGING, fromS), nowS);
    const hold = { fromS, toS, recognisedBy: 'mark', isolationSure: true } as const;
    return [{ ...hold, pumpedS: 0, repeats: false }];
  });
}

const STILL: readonly Stage['name'][] = ['rise', 'pump_stopped'];

function isFilledFrom(rise: Stage, filled: Stage): boolean {
  const isFilled = filled.name === 'nitrogen_break' || filled.name === 'vented';
  const isMarked = rise.name === 'rise' && rise.recognisedBy === 'mark';
  const atOnce = filled.sinceS - rise.sinceS < LEAST_HOLD_S;
  return isFilled && filled.recognisedBy === 'curve' && isMarked && atOnce;
}

/** As far as its curve shows it: what it came to at its end may be the air's own pressure. */
export function ofFastStub({ curve }: HoldAlone, whole: HoldAlone | null): StubFinding {
  const [first, last] = [curve[0], curve.at(-1)];
  const wholePaPerS = whole?.leakPaPerS?.high ?? null;
  if (first === undefined || last === undefined || wholePaPerS === null) return 'undecided';
  const heldS = last.heldS - first.heldS;
  const risePa = last.pressurePa - first.pressurePa;
  return risePa > MUCH_FASTER * wholePaPerS * heldS ? 'suspect' : 'undecided';
}
