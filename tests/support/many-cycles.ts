/** A job of many evacuations with nitrogen between them, by formula: for what must not grow with them. */
import type { Mark, MarkKind } from '../../protocol/mark.ts';
import type { HistoryPoint } from '../../web/analysis/readings/history.ts';

const DOWN_S = 300;
const HOLD_S = 260;
const BREAK_S = 60;
const CYCLE_S = DOWN_S + HOLD_S + BREAK_S;

export interface ManyCycles {
  readonly points: readonly HistoryPoint[];
  readonly marks: readonly Mark[];
  readonly endS: number;
}

/** A reading a second; the last one is a pull-down that goes on. */
export function manyCycles(count: number): ManyCycles {
  const endS = count * CYCLE_S + DOWN_S;
  const marks: Mark[] = [];
  for (let cycle = 0; cycle <= count; cycle += 1) {
    const mark = (kind: MarkKind, afterS: number) => {
      const elapsedS = cycle * CYCLE_S + afterS;
      if (elapsedS > endS - DOWN_S && afterS > 1) return;
      marks.push({ id: marks.length + 1, kind, elapsedS, text: '', madeBy: 'hand' });
    };
    mark('pump_on', 1);
    mark('isolated', DOWN_S);
    mark('nitrogen_break', DOWN_S + HOLD_S);
  }
  return { points: Array.from({ length: endS }, (_, elapsedS) => pointAt(elapsedS)), marks, endS };
}

function pointAt(elapsedS: number): HistoryPoint {
  const pressurePa = pressureAt(elapsedS % CYCLE_S, Math.floor(elapsedS / CYCLE_S));
  // Noise that is the same each time.
  const noisy = pressurePa * (1 + 0.002 * Math.sin(elapsedS * 7.7));
  return { elapsedS, pressurePa: noisy, condition: 'ok', temperatureC: 20 };
}

function pressureAt(sinceS: number, cycle: number): number {
  const floorPa = 60 + 200 / (cycle + 1);
  if (sinceS < DOWN_S) return floorPa + 95_000 * Math.exp(-sinceS / 25);
  const heldS = sinceS - DOWN_S;
  if (heldS < HOLD_S) return floorPa + floorPa * (1 - Math.exp(-heldS / 120));
  return 95_000 * (1 - Math.exp(-(heldS - HOLD_S) / 5)) + floorPa;
}
