/** Lets a sensor measure by itself, at the interval that is set. */
import type { SensorBehaviour } from './sensor-behaviour.ts';

export interface Measuring {
  readonly behaviour: SensorBehaviour;
  /** What there is to be measured at this moment. */
  readonly next: () => { readonly pressurePa: number | null; readonly temperatureC: number };
}

/** A computer that was later than this has slept: what it has missed was never measured. */
const ASLEEP_MS = 10_000;

/**
 * A sensor's own timer isn't late as this computer's is: what was due meanwhile is measured at once, with
 * the time at which it was due.
 * @returns what stops it
 */
export function startMeasuring({ behaviour, next }: Measuring): () => void {
  let timer: NodeJS.Timeout;
  let dueMs = performance.now();
  const measure = (): void => {
    for (let lateMs = 0; lateMs >= 0; lateMs = performance.now() - dueMs) {
      if (lateMs > ASLEEP_MS) dueMs = performance.now();
      const { pressurePa, temperatureC } = next();
      behaviour.measure(pressurePa, { temperatureC }, Math.max(0, performance.now() - dueMs));
      dueMs += behaviour.measuringIntervalMs;
    }
    timer = setTimeout(measure, dueMs - performance.now());
  };
  measure();
  return () => clearTimeout(timer);
}
