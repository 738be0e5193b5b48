/** A virtual sensor to be examined, on a virtual air, with the host library's socket put onto it. */
import type { VirtualAir } from '../../../simulators/sensor/virtual-air.ts';
import {
  VirtualSensor,
  type VirtualSensorOptions,
} from '../../../simulators/sensor/virtual-sensor.ts';
import { startMeasuring } from '../../../simulators/sensor/measuring.ts';
import { serveController } from '../../../simulators/sensor/serve-controller.ts';

/** About what a radio link makes of it. */
const REPORT_PAUSE_MS = 2;

/** From here on this process's host library has a virtual adapter. */
export async function useVirtualAdapter(air: VirtualAir): Promise<() => Promise<void>> {
  const served = await serveController(air.createController());
  Object.assign(process.env, served.environment);
  await import('../../../simulators/sensor/virtual-socket-preload.ts');
  return () => served.close();
}

export interface Placing {
  readonly intervalMs: number;
  /** It has been switched on for so many measurements: enough that a report of all takes a while. */
  readonly measuredBefore: number;
}

/**
 * A sensor that measures by itself at the interval that it was given, in reach at once.
 * @returns it, and what takes it out of reach for good
 */
export function placeSensor(
  air: VirtualAir,
  options: VirtualSensorOptions,
  { intervalMs, measuredBefore }: Placing,
): { readonly sensor: VirtualSensor; readonly remove: () => void } {
  let aheadMs = -measuredBefore * intervalMs;
  const sensor = new VirtualSensor(air, {
    reportPauseMs: REPORT_PAUSE_MS,
    clock: () => performance.now() + aheadMs,
    ...options,
    capabilities: { intervalMs, shortestIntervalMs: intervalMs, ...options.capabilities },
  });
  for (let i = 0; i < measuredBefore; i += 1) {
    sensor.measure(fallingPa(i));
    aheadMs += intervalMs;
  }
  let place = measuredBefore;
  const next = () => ({ pressurePa: fallingPa(place++), temperatureC: 21.5 });
  const stop = startMeasuring({ behaviour: sensor.behaviour, next });
  const remove = (): void => {
    stop();
    sensor.vanish();
  };
  return { sensor, remove };
}

/** Any curve of which no two values are alike for some hundred measurements. */
function fallingPa(place: number): number {
  return 10_000 / (place + 5);
}
