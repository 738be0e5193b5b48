/** How long the pump's battery lasts, against how long it is still needed. */
import type { Mark } from '../../../protocol/mark.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import type { Conclusions } from '../conclusions.ts';

export interface PumpBattery {
  /** Data time since which it has been running down: pump on, or the latest change, s. */
  readonly sinceS: number;
  readonly leftS: number;
  /** Until it is deep enough to valve off, as likely as not; null where nobody can say, or it is. */
  readonly needsS: number | null;
}

/** @returns null where the job sheet does not say how long it lasts */
export function pumpBattery(
  { nowS, pullDownS, forecast, isolationDepthReachedS }: Conclusions,
  marks: readonly Mark[],
  { pumpBatteryS }: Pick<Sheet, 'pumpBatteryS'>,
): PumpBattery | null {
  if (pumpBatteryS === null) return null;
  const changes = marks.filter(
    ({ kind, elapsedS }) => kind === 'battery_changed' && elapsedS <= nowS,
  );
  const sinceS = changes.reduce((last, { elapsedS }) => Math.max(last, elapsedS), pullDownS ?? 0);
  return {
    sinceS,
    leftS: pumpBatteryS - (nowS - sinceS),
    needsS: isolationDepthReachedS === null ? (forecast?.remainingToIsolation?.p50S ?? null) : null,
  };
}
