/**
 * Pressures far above the atmosphere's, as gauges of a nitrogen test show them. Gauge and absolute pressure are
 * two types that no compiler takes for one another: the difference is an atmosphere, and a gas law reckoned with
 * the wrong one of them calls a tight system leaking.
 */
import { z } from 'zod';
import { STANDARD_ATMOSPHERE_PA } from './units.ts';

/** Above what any system of the trade is tested at, CO₂ among them. A setting of ours. */
const MOST_PA = 30e6;

/** What a gauge shows: above the air around it. */
export const gaugePressureSchema = z.strictObject({
  kind: z.literal('gauge'),
  gaugePa: z.number().min(-STANDARD_ATMOSPHERE_PA).max(MOST_PA),
});
export type GaugePressure = z.infer<typeof gaugePressureSchema>;

/** Above nothing at all: what gas laws are about. */
export interface AbsolutePressure {
  readonly kind: 'absolute';
  readonly absolutePa: number;
}

/** @param ambientPa of the air around the gauge, absolute */
export function absoluteFromGauge({ gaugePa }: GaugePressure, ambientPa: number): AbsolutePressure {
  return { kind: 'absolute', absolutePa: gaugePa + ambientPa };
}

export function gaugeFromAbsolute(
  { absolutePa }: AbsolutePressure,
  ambientPa: number,
): GaugePressure {
  return { kind: 'gauge', gaugePa: absolutePa - ambientPa };
}

/** Pound-force per square inch: pound, gravity and inch are exact (NIST SP 811, App. B.8: 6.894 757 kPa). */
const PA_PER_PSI = (0.453_592_37 * 9.806_65) / 0.0254 ** 2;

/** In the order in which they are offered. */
export const GAUGE_UNITS = ['psi', 'bar', 'kPa', 'MPa'] as const;
export type GaugeUnit = (typeof GAUGE_UNITS)[number];

const PA_PER_GAUGE_UNIT: Readonly<Record<GaugeUnit, number>> = {
  psi: PA_PER_PSI,
  bar: 1e5,
  kPa: 1e3,
  MPa: 1e6,
};

export function gaugeFromUnit(value: number, unit: GaugeUnit): GaugePressure {
  return { kind: 'gauge', gaugePa: value * PA_PER_GAUGE_UNIT[unit] };
}

/** A difference of pressures, which is the same on either scale, in such a unit. */
export function inGaugeUnit(pa: number, unit: GaugeUnit): number {
  return pa / PA_PER_GAUGE_UNIT[unit];
}
