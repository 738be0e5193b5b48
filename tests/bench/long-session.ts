/** A day at 10 Hz by formula, for timings: what is timed must not depend on what is right. */
import type { Mark } from '../../protocol/mark.ts';
import type { History } from '../../web/analysis/readings/history.ts';

export const HERTZ = 10;
/** Valved off here in `markedJob`; held for a quarter of an hour. */
export const ISOLATED_S = 3600;
export const HELD_S = 900;

/** A slow pull-down with a ripple in place of noise. */
export function pullDownPa(elapsedS: number): number {
  return (
    60 + 90_000 * Math.exp(-elapsedS / 40) + 4000 / (elapsedS + 20) + Math.sin(elapsedS * 7) * 0.2
  );
}

/** The same, valved off: steady inflow and what levels off. */
export function jobPa(elapsedS: number): number {
  const heldS = Math.max(elapsedS - ISOLATED_S, 0);
  const risenPa = 0.02 * heldS + 80 * (1 - Math.exp(-heldS / 200));
  return pullDownPa(elapsedS) + risenPa;
}

export const JOB_MARKS: readonly Mark[] = [
  { id: 1, kind: 'pump_on', elapsedS: 0, text: '', madeBy: 'hand' },
  { id: 2, kind: 'isolated', elapsedS: ISOLATED_S, text: '', madeBy: 'hand' },
];

/** Folds in the readings of a stretch. */
export function fill(
  history: History,
  pressurePa: (elapsedS: number) => number,
  fromS: number,
  toS: number,
): void {
  for (let row = Math.round(fromS * HERTZ); row < toS * HERTZ; row += 1) {
    insert(history, pressurePa, row / HERTZ);
  }
}

export function insert(
  history: History,
  pressurePa: (elapsedS: number) => number,
  elapsedS: number,
): void {
  history.insert({
    elapsedS,
    pressurePa: pressurePa(elapsedS),
    condition: 'ok',
    temperatureC: 20,
  });
}
