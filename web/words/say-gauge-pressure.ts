/** Gauge pressures of a nitrogen test. Whatever stands here says that it is one. */
import { type GaugePressure, type GaugeUnit, inGaugeUnit } from '../../protocol/gauge-pressure.ts';
import type { Estimate } from '../analysis/conclusions.ts';
import { sayExactly, sayNumber } from './say-number.ts';
import type { Speech } from './speech.ts';

/** Where the unit was not chosen: what goes with the degrees that are. */
export function gaugeUnitOf({ units }: Speech): GaugeUnit {
  return units.temperature === '°F' ? 'psi' : 'bar';
}

/** '506.3 psi (gauge)'. */
export function sayGauge({ gaugePa }: GaugePressure, unit: GaugeUnit, speech: Speech): string {
  const amount = `${sayNumber(inGaugeUnit(gaugePa, unit), speech, 4)} ${unit}`;
  return speech.wording.nitrogen.gauge({ amount });
}

/** As somebody set it: '300 psi (gauge)'. */
export function sayGaugeSetting(
  { gaugePa }: GaugePressure,
  unit: GaugeUnit,
  speech: Speech,
): string {
  const amount = `${sayExactly(Number(inGaugeUnit(gaugePa, unit).toPrecision(3)), speech)} ${unit}`;
  return speech.wording.nitrogen.gauge({ amount });
}

/** A difference, which is the same on either scale: '5.8 psi'. */
export function sayDifference(pa: number, unit: GaugeUnit, speech: Speech): string {
  return `${sayNumber(inGaugeUnit(pa, unit), speech, 2)} ${unit}`;
}

/** '5.8 psi, between 4.9 and 6.7 psi'. */
export function sayDifferenceBetween(
  { estimate, low, high }: Estimate,
  unit: GaugeUnit,
  speech: Speech,
): string {
  const digits = (pa: number) => sayNumber(inGaugeUnit(pa, unit), speech, 2);
  const about = sayDifference(estimate, unit, speech);
  const { aboutBetween } = speech.wording.amounts;
  return aboutBetween({ about, low: digits(low), high: `${digits(high)} ${unit}` });
}
