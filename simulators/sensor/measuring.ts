/** Lets a sensor measure by itself, at the interval that is set. */
import type { SensorBehaviour } from './sensor-behaviour.ts';

export interface Measuring {
  readonly behaviour: SensorBehaviour;
  /** What there is to be measured at this moment. */
  readonly next: () => { readonly pressurePa: number | null; readonly temperatureC: number };
}

/** @returns what stops it */
export function startMeasuring({ behaviour, next }: Measuring): () => void {
  let timer: NodeJS.Timeout;
  let dueMs = performance.now();
  const measure = (): void => {
    const { pressurePa, temperatureC } = next();
    // A sensor's own timer isn't late as this computer's is.
    behaviour.measure(pressurePa, { temperatureC }, Math.max(0, performance.now() - dueMs));
    dueMs = Math.max(dueMs + behaviour.measuringIntervalMs, performance.now());
    timer = setTimeout(measure, dueMs - performance.now());
  };
  measure();
  return () => clearTimeout(timer);
}
