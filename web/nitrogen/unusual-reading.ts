/** What of a reading is far from any nitrogen test: whoever typed it may have meant another unit. Pure. */
import type { GaugeUnit } from '../../protocol/gauge-pressure.ts';
import type { NitrogenReading } from '../../protocol/nitrogen-test.ts';
import { sayGauge } from '../words/say-gauge-pressure.ts';
import { sayTenths } from '../words/say-temperature.ts';
import type { Speech } from '../words/speech.ts';

/** Bounds of ours, wide on purpose: what lies beyond is asked about, not refused. */
const USUAL_GAUGE_PA = { low: 0.5e5, high: 70e5 };
const USUAL_C = { low: -30, high: 55 };

/** @returns the figure with its unit; null: nothing is unusual. A gauge that has come to nothing shows a loss. */
export function sayUnusualReading(
  { pressure, temperatureC }: NitrogenReading,
  unit: GaugeUnit,
  speech: Speech,
): string | null {
  const { gaugePa } = pressure;
  const isNone = gaugePa === 0;
  if (!isNone && (gaugePa < USUAL_GAUGE_PA.low || gaugePa > USUAL_GAUGE_PA.high)) {
    return sayGauge(pressure, unit, speech);
  }
  if (temperatureC === null) return null;
  const isUsual = temperatureC >= USUAL_C.low && temperatureC <= USUAL_C.high;
  return isUsual ? null : sayTenths(temperatureC, speech);
}
