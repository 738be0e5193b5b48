/** Lets a sensor measure by itself, at the interval that is set. */
import type { SensorBehaviour } from './sensor-behaviour.ts';

export interface Measuring {
  readonly behaviour: SensorBehaviour;
  /** What there is to be measured at this moment, Pa; null: over range. */
  readonly pressurePa: () => number | null;
}

/** @returns what stops it */
export function startMeasuring({ behaviour, pressurePa }: Measuring): () => void {
  let timer: NodeJS.Timeout;
  let dueMs = performance.now();
  const measure = (): void => {
    behaviour.measure(pressurePa());
    // From one due time to the next, so that the time that this takes doesn't add up.
    dueMs = Math.max(dueMs + behaviour.measuringIntervalMs, performance.now());
    timer = setTimeout(measure, dueMs - performance.now());
  };
  measure();
  return () => clearTimeout(timer);
}
